using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Mapping.Narratives;
using HandFhirBridge.Service.Output;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Reports;

/// <summary>Makes the report of a session read back from the record.</summary>
/// <param name="instruments">Gives tasks their titles and standard order.</param>
/// <param name="errors">Measurement errors that change is held against; without one no verdict is given.</param>
public sealed class ReportBuilder(InstrumentLibrary instruments, IReadOnlyCollection<MeasurementError> errors)
{
    /// <summary>Shown on every report.</summary>
    public const string Caution =
        "Supports and never replaces the judgement of a licensed clinician and local protocols. Not a diagnosis.";

    /// <summary>The report of a session, with its change since an earlier one where there is one.</summary>
    /// <param name="report">The resource that says how the report stands.</param>
    /// <param name="scored">The session as its resources say it.</param>
    /// <param name="earlier">The session before it.</param>
    public SessionReport Build(DiagnosticReport report, ScoredSession scored, EarlierFinding earlier)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(scored);
        ArgumentNullException.ThrowIfNull(earlier);
        var session = scored.Session;
        var instrument = instruments.Find(session.Instrument.Id, session.Instrument.Version)
            ?? throw new InvalidOperationException($"No definition of {session.Instrument.Id} {session.Instrument.Version}.");
        var rows = scored.Trials
            .OrderBy(t => instrument.FindTask(t.Trial.Task)?.Order)
            .ThenBy(t => t.Role)
            .ThenBy(t => t.Attempt)
            .Select(t => (t.Trial.Counted, Row: Row(t, instrument)))
            .ToLookup(r => r.Counted, r => r.Row);
        return new()
        {
            Site = session.Site,
            ClinicName = report.Performer.FirstOrDefault(p => p.Type == "Organization")?.Display,
            SessionId = session.SessionId,
            Revision = session.Revision,
            Status = session.Revision > 1 ? ReportStatus.Corrected : ReportStatus.Final,
            Issued = report.Issued ?? session.EndedAt,
            Instrument = instrument.Title,
            Patient = session.Patient.Identifier,
            FamilyName = session.Patient.FamilyName,
            BirthDate = session.Patient.BirthDate,
            StartedAt = session.StartedAt,
            EndedAt = session.EndedAt,
            AgeInYears = session.AgeInYears,
            Performer = session.Performer.Name,
            PerformerRole = session.Performer.Role,
            Order = session.Order,
            Dominance = session.Dominance,
            SexForNorm = session.SexForNorm,
            CapSeconds = session.Setup.CapSeconds,
            Demonstration = scored.Demonstration,
            OrderDeparted = scored.OrderDeparted,
            Conditions = TestConditions.Of(scored, instrument),
            NotStandard = TestConditions.Departures(scored, instrument),
            Comment = session.Comment,
            Rows = [.. rows[true]],
            NotCounted = [.. rows[false]],
            Totals = [.. scored.Totals.Select(t => new ReportTotal(t.TotalId, t.Hand, t.Role, t.Seconds, t.MissingTasks, t.NormMean))],
            Differences = [.. scored.Differences.Where(d => d.Seconds is not null).Select(d => new ReportDifference(d.Subject, d.Seconds!.Value))],
            Earlier = earlier.Outcome,
            Change = earlier.Session is { } before ? Changes(before, scored) : [],
            NormSources = ReportNormSource.Of([scored]),
            Conclusion = report.Conclusion is { Length: > 0 } words ? new(words, Signature(session, words)) : null,
            Caution = Caution,
        };
    }

    // Words that were changed in the record since are no longer those that were signed.
    private static string? Signature(Session session, string words) =>
        session.Conclusion is { } signed && words.Contains(signed.Text.Trim(), StringComparison.Ordinal)
            ? $"{session.Performer.Name}, {Words.Of(session.Performer.Role)}, on {PlainWords.Moment(signed.SignedAt)}"
            : null;

    private ImmutableArray<ReportChange> Changes(ScoredSession earlier, ScoredSession later) =>
    [
        .. ChangeScorer.Compare(earlier, later, errors).Select(c => new ReportChange(
            c.Subject, c.Hand, earlier.Session.SessionId, earlier.Session.StartedAt, c.Earlier, c.Seconds,
            c.Verdict, c.Error is { } e ? new(e.MinimalDetectableChange, e.Level, e.Population, e.Source) : null, c.WhyNoVerdict, Verdict(c))),
    ];

    private static string? Verdict(SessionChange change) => change switch
    {
        { Verdict: { } verdict, Error: { } error } => string.Create(
            CultureInfo.InvariantCulture,
            $"{PlainWords.Upper(Words.Of(verdict))}: the minimal detectable change at {error.Level} % is {error.MinimalDetectableChange} s in {error.Population} ({error.Source})."),
        { WhyNoVerdict: NoVerdict.SetupDiffered or NoVerdict.SeveralMeasurementErrors } => $"No verdict: {Words.Of(change.WhyNoVerdict.Value)}.",
        _ => null,
    };

    private static ReportRow Row(ScoredTrial scored, Instrument instrument) => new(
        scored.Trial.Task,
        instrument.FindTask(scored.Trial.Task)?.Title ?? scored.Trial.Task,
        scored.Trial.Hand,
        scored.Role,
        scored.Trial.Outcome,
        scored.Trial.Seconds,
        [.. scored.Norms.Select(ReportNorm.Of)],
        scored.Score?.Z,
        scored.Score?.PercentOfMean,
        scored.Score?.ApproximatePercentile,
        scored.Score?.Judgement,
        scored.WhyNotJudged,
        scored.Trial.Departures,
        scored.Trial.Reason,
        scored.Trial.Note);
}
