namespace HandFhirBridge.Outcomes.Rows;

/// <summary>A resource of the gathered set, as text.</summary>
/// <param name="Source">Where it was gathered.</param>
/// <param name="File">Name of its file.</param>
/// <param name="Number">1-based line in the file.</param>
/// <param name="Json">The resource, UTF-8.</param>
internal readonly record struct GatheredLine(string Source, string File, long Number, ReadOnlyMemory<byte> Json);
