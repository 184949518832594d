namespace HandFhirBridge.Delivery.Tests.Reading;

/// <summary>Ways in which servers answer a search.</summary>
public enum SearchWay
{
    /// <summary>As asked.</summary>
    Plain,

    /// <summary>A few at a time, with a link to the next.</summary>
    Pages,

    /// <summary>With everything of the type, whoever it is of (R4 search.html lets a server ignore what it does not know).</summary>
    IgnoresParameters,

    /// <summary>400 to a search by category.</summary>
    RefusesCategory,

    /// <summary>Nothing for a category, as the server does not index it.</summary>
    FindsNoCategory,

    /// <summary>400 to any search for responses.</summary>
    RefusesResponses,

    /// <summary>With absolute references to itself.</summary>
    AbsoluteReferences,
}
