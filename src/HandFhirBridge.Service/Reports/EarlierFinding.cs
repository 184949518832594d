using HandFhirBridge.Assessment.Scoring;

namespace HandFhirBridge.Service.Reports;

/// <summary>The session a report is compared with, or why there is none.</summary>
/// <param name="Outcome">What came of looking for it.</param>
/// <param name="Session">The session; null exactly if <paramref name="Outcome"/> is not <see cref="EarlierSession.Compared"/>.</param>
public sealed record EarlierFinding(EarlierSession Outcome, ScoredSession? Session)
{
    /// <summary>Nobody looked.</summary>
    public static EarlierFinding NotLookedFor { get; } = new(EarlierSession.NotLookedFor, null);

    /// <summary>The record could not be read.</summary>
    public static EarlierFinding NotReadable { get; } = new(EarlierSession.NotReadable, null);

    /// <summary>There is none that can be compared.</summary>
    public static EarlierFinding None { get; } = new(EarlierSession.None, null);

    /// <summary>Compared with <paramref name="earlier"/>.</summary>
    public static EarlierFinding Of(ScoredSession earlier) => new(EarlierSession.Compared, earlier);
}
