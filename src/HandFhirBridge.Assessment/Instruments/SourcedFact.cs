namespace HandFhirBridge.Assessment.Instruments;

/// <summary>A fact of procedure with what it rests on.</summary>
/// <param name="Text">The fact in words.</param>
/// <param name="Source">Published source, or <c>common practice, no source</c>.</param>
public sealed record SourcedFact(string Text, string Source);
