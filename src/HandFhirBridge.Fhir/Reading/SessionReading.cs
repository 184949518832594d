using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>One reading of one session: what happened first, then whether the scores in the record are those of what happened.</summary>
internal sealed class SessionReading(
    ResourceSet set, DiagnosticReport report, SessionKeys keys, InstrumentLibrary instruments, TimeProvider clock, List<Problem> problems)
{
    private readonly Place place = Place.Of(problems, report, keys.Session);

    /// <summary>The session; null, or of no use, if anything was noted.</summary>
    public ScoredSession? Read()
    {
        Soundness.Check(report, place);
        if (problems.Count > 0)
        {
            // A withdrawn report has everything else withdrawn too; one problem says it.
            return null;
        }

        var members = new SessionMembers(set, report, keys, place);
        var shared = new SharedFacts(report, place);
        if (members.SetupResponse() is not { } response)
        {
            return null;
        }

        var responsePlace = Place.Of(problems, response, keys.Session);
        Soundness.Check(response, responsePlace);
        shared.Check(response.Subject, response.Author, response.Encounter, responsePlace);
        var facts = SetupReading.Read(response, responsePlace);
        return Instrument(facts, responsePlace) is { } instrument && Revision(response, responsePlace) is { } revision
            ? Read(members, shared, facts, response, instrument, revision)
            : null;
    }

    private ScoredSession? Read(
        SessionMembers members, SharedFacts shared, SetupFacts facts, QuestionnaireResponse response, Instrument instrument, int revision)
    {
        var gate = new ObservationGate(shared, problems);
        var reading = new ObservationsReading(members, gate, instrument, response, problems);
        var dominance = reading.Dominance();
        var attempts = reading.Attempts();
        reading.CheckRunOrder(attempts);
        var kit = reading.Kit(attempts);
        if (problems.Count > 0)
        {
            return null;
        }

        var session = new Session(
            keys.SessionId, revision, keys.Site, new(instrument.Id, instrument.Version),
            new(shared.Patient!, facts.FamilyName!, facts.BirthDate!.Value),
            new(shared.Performer!, shared.PerformerName!, facts.PerformerRole!.Value),
            shared.Encounter, shared.Order, facts.StartedAt!.Value, facts.EndedAt!.Value, dominance!, facts.SexForNorm!.Value,
            facts.Setup with { Kit = kit }, facts.Precautions, [.. attempts.Select(a => WithoutSessionStart(a.Trial, facts.StartedAt.Value))], facts.Comment,
            ConclusionReading.Read(report, place));
        CheckPeriod(session);
        return Acceptance.Check(session, instruments, clock, place) is { } accepted && problems.Count == 0
            ? Scored(members, gate, instrument, new ScoreReading(members, accepted, attempts, instruments).Read())
            : null;
    }

    private static ScoredSession Scored(SessionMembers members, ObservationGate gate, Instrument instrument, ScoredSession scored)
    {
        new TotalsReading(members, gate, instrument).Check(scored);
        return scored;
    }

    private Instrument? Instrument(SetupFacts facts, Place from)
    {
        if (facts.InstrumentId is not { } id || facts.InstrumentVersion is not { } version)
        {
            return null;
        }

        var instrument = instruments.Find(id, version);
        if (instrument is null)
        {
            from.Add(ReadingProblems.UnknownInstrument, $"is for instrument {id} version {version}, which has no definition here.", $"{id} {version}");
        }

        return instrument;
    }

    private int? Revision(QuestionnaireResponse response, Place from)
    {
        var ofReport = Elements.Extension<PositiveInt>(report, Extensions.SessionRevision, place)?.Value;
        var ofResponse = Elements.Extension<PositiveInt>(response, Extensions.SessionRevision, from)?.Value;
        if (ofReport != ofResponse)
        {
            from.At($"extension('{Extensions.SessionRevision}')").Contradicts($"{ofResponse}", $"the report is of revision {ofReport}");
        }

        return ofReport;
    }

    // A trial without a time of its own is given the session's; a document that writes it out means the same.
    private static Trial WithoutSessionStart(Trial trial, DateTimeOffset start) =>
        trial.StartedAt is { } began && began.EqualsExact(start) ? trial with { StartedAt = null } : trial;

    private void CheckPeriod(Session session)
    {
        var period = report.Effective as Period;
        foreach (var (element, found, expected) in new[]
        {
            ("effective.start", period?.StartElement, session.StartedAt), ("effective.end", period?.EndElement, session.EndedAt),
        })
        {
            if (Elements.Moment(found, place.At(element)) is { } moment && !moment.EqualsExact(expected))
            {
                place.At(element).Contradicts(found!.Value, "the set-up response has another time");
            }
        }
    }
}
