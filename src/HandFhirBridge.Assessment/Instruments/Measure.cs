namespace HandFhirBridge.Assessment.Instruments;

/// <summary>A length the set-up asks for.</summary>
/// <param name="Id">Stable id, for example <c>edge-to-items</c>.</param>
/// <param name="Title">What is measured, from where to where.</param>
/// <param name="Inches">Nominal length in inches.</param>
/// <param name="ToleranceInches">Deviation either way that still counts as standard, in inches; common practice, no source.</param>
/// <param name="Source">Published source, or <c>common practice, no source</c>.</param>
public sealed record Measure(string Id, string Title, decimal Inches, decimal ToleranceInches, string Source);
