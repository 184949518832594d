namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>How a selection goes from the element it stands in to those it takes rows from.</summary>
public enum Unnesting
{
    /// <summary>It stays where it is.</summary>
    None,

    /// <summary>A row for each element, none if there is none.</summary>
    ForEach,

    /// <summary>A row for each element, an empty one if there is none.</summary>
    ForEachOrNull,

    /// <summary>A row for each element found by following the paths again and again, each before those below it.</summary>
    Repeat,
}
