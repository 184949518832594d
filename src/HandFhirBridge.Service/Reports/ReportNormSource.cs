using HandFhirBridge.Assessment.Norms;

namespace HandFhirBridge.Service.Reports;

/// <summary>Where the norms of a report come from.</summary>
/// <param name="Id">Norm set id.</param>
/// <param name="Version">Version of the copy.</param>
/// <param name="Evidence">How it was obtained.</param>
/// <param name="Source">Citation.</param>
public sealed record ReportNormSource(string Id, string Version, Evidence Evidence, string Source);
