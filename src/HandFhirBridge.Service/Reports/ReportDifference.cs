namespace HandFhirBridge.Service.Reports;

/// <summary>Difference between the hands.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Seconds">Non-dominant minus dominant, seconds.</param>
public sealed record ReportDifference(string Subject, decimal Seconds);
