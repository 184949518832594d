using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;

namespace HandFhirBridge.Service.Charts;

/// <summary>A session read back from the record, with where its results lie.</summary>
/// <param name="Scored">The session.</param>
/// <param name="ReportId">Id of its DiagnosticReport.</param>
/// <param name="Observations">Ids of the Observations by their identifier's value.</param>
public sealed record RecordedSession(ScoredSession Scored, string ReportId, ImmutableDictionary<string, string> Observations);
