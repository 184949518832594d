namespace HandFhirBridge.Assessment.Instruments;

/// <summary>A way a trial can differ from the standard.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Title">In plain words.</param>
public sealed record Departure(string Id, string Title);
