namespace HandFhirBridge.Assessment.Instruments;

/// <summary>A thing that must lie on the table.</summary>
/// <param name="Id">Stable id, used when an item was replaced.</param>
/// <param name="Title">Name in plain words.</param>
/// <param name="Count">How many.</param>
/// <param name="Size">Size or weight in words; null where it does not matter.</param>
/// <param name="Source">Published source, or <c>common practice, no source</c>.</param>
public sealed record Material(string Id, string Title, int Count, string? Size, string Source);
