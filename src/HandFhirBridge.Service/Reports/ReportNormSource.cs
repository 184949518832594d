using System.Collections.Immutable;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;

namespace HandFhirBridge.Service.Reports;

/// <summary>Where the norms of a report come from.</summary>
/// <param name="Id">Norm set id.</param>
/// <param name="Version">Version of the copy.</param>
/// <param name="Evidence">How it was obtained.</param>
/// <param name="Source">Citation.</param>
public sealed record ReportNormSource(string Id, string Version, Evidence Evidence, string Source)
{
    /// <summary>Those of <paramref name="sessions"/>, each once.</summary>
    internal static ImmutableArray<ReportNormSource> Of(IEnumerable<ScoredSession> sessions) =>
    [
        .. sessions.SelectMany(s => s.Trials).SelectMany(t => t.Norms)
            .Select(n => new ReportNormSource(n.NormSetId, n.NormSetVersion, n.Cell.Evidence, n.Cell.Source))
            .Distinct()
            .OrderBy(s => s.Id, StringComparer.Ordinal),
    ];
}
