namespace HandFhirBridge.Service.Reports;

/// <summary>Measurement error a change was held against.</summary>
/// <param name="MinimalDetectableChange">Change in seconds that must be exceeded, two decimals; decided on the unrounded figure.</param>
/// <param name="Level">Confidence level, percent.</param>
/// <param name="Population">Whom it was measured on.</param>
/// <param name="Source">Citation.</param>
public sealed record ReportError(decimal MinimalDetectableChange, int Level, string Population, string Source);
