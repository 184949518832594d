using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Reports;

/// <summary>Makes the report of a session read back from the record.</summary>
/// <param name="instruments">Gives tasks their titles and standard order.</param>
/// <param name="errors">Measurement errors that change is held against; without one no verdict is given.</param>
public sealed class ReportBuilder(InstrumentLibrary instruments, IReadOnlyCollection<MeasurementError> errors)
{
    /// <summary>Shown on every report.</summary>
    public const string Caution =
        "Supports and never replaces the judgement of a licensed clinician and local protocols. Not a diagnosis.";

    /// <summary>The report of <paramref name="scored"/>, with its change since <paramref name="earlier"/> where there is one.</summary>
    public SessionReport Build(ScoredSession scored, ScoredSession? earlier = null)
    {
        ArgumentNullException.ThrowIfNull(scored);
        var session = scored.Session;
        var instrument = instruments.Find(session.Instrument.Id, session.Instrument.Version)
            ?? throw new InvalidOperationException($"No definition of {session.Instrument.Id} {session.Instrument.Version}.");
        var rows = scored.Trials
            .OrderBy(t => instrument.FindTask(t.Trial.Task)?.Order)
            .ThenBy(t => t.Role)
            .ThenBy(t => t.Attempt)
            .Select(t => (t.Trial.Counted, Row: Row(t, instrument)))
            .ToLookup(r => r.Counted, r => r.Row);
        return new(
            session.Site,
            session.SessionId,
            session.Revision,
            session.Patient.Identifier,
            session.StartedAt,
            session.AgeInYears,
            session.Performer.Name,
            session.Dominance,
            session.SexForNorm,
            session.Setup.CapSeconds,
            scored.Demonstration,
            scored.OrderDeparted,
            [.. rows[true]],
            [.. rows[false]],
            [.. scored.Totals.Select(t => new ReportTotal(t.TotalId, t.Hand, t.Role, t.Seconds, t.MissingTasks, t.NormMean))],
            [.. scored.Differences.Where(d => d.Seconds is not null).Select(d => new ReportDifference(d.Subject, d.Seconds!.Value))],
            earlier is null ? [] : Changes(earlier, scored),
            Sources(scored),
            Caution);
    }

    private ImmutableArray<ReportChange> Changes(ScoredSession earlier, ScoredSession later) =>
    [
        .. ChangeScorer.Compare(earlier, later, errors).Select(c => new ReportChange(
            c.Subject, c.Hand, earlier.Session.SessionId, earlier.Session.StartedAt, c.Earlier, c.Seconds, Verdict(c))),
    ];

    private static string? Verdict(SessionChange change) => change switch
    {
        { Verdict: { } verdict, Error: { } error } => string.Create(
            CultureInfo.InvariantCulture,
            $"{Capital(Words.Of(verdict))}: the minimal detectable change at {error.Level} % is {error.MinimalDetectableChange} s in {error.Population} ({error.Source})."),
        { WhyNoVerdict: NoVerdict.SetupDiffered or NoVerdict.SeveralMeasurementErrors } => $"No verdict: {Words.Of(change.WhyNoVerdict.Value)}.",
        _ => null,
    };

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static ReportRow Row(ScoredTrial scored, Instrument instrument) => new(
        scored.Trial.Task,
        instrument.FindTask(scored.Trial.Task)?.Title ?? scored.Trial.Task,
        scored.Trial.Hand,
        scored.Role,
        scored.Trial.Outcome,
        scored.Trial.Seconds,
        [.. scored.Norms.Select(Norm)],
        scored.Score?.Z,
        scored.Score?.PercentOfMean,
        scored.Score?.ApproximatePercentile,
        scored.Score?.Judgement,
        scored.WhyNotJudged,
        scored.Trial.Departures,
        scored.Trial.Reason,
        scored.Trial.Note);

    private static ReportNorm Norm(NormComparison norm) => new(
        norm.Cell.Sex,
        norm.Cell.AgeMin,
        norm.Cell.AgeMax,
        norm.Cell.Mean,
        norm.Cell.StandardDeviation,
        $"{norm.NormSetId} {norm.NormSetVersion}",
        norm.Cell.Evidence);

    private static ImmutableArray<ReportNormSource> Sources(ScoredSession scored) =>
    [
        .. scored.Trials
            .SelectMany(t => t.Norms)
            .Select(n => new ReportNormSource(n.NormSetId, n.NormSetVersion, n.Cell.Evidence, n.Cell.Source))
            .Distinct()
            .OrderBy(s => s.Id, StringComparer.Ordinal),
    ];
}
