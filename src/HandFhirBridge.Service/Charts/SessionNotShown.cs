namespace HandFhirBridge.Service.Charts;

/// <summary>A session that stands in the chart and cannot be shown.</summary>
/// <param name="ReportId">Id of its DiagnosticReport on the server.</param>
/// <param name="Reason">Why not.</param>
public sealed record SessionNotShown(string ReportId, string Reason);
