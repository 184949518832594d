namespace HandFhirBridge.Service.Reports;

/// <summary>The conclusion as it stands in the record.</summary>
/// <param name="Text">Its words.</param>
/// <param name="SignedBy">Who answers for the words; null if rules drafted them and nobody signed.</param>
public sealed record ReportConclusion(string Text, string? SignedBy);
