using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Reports;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>The corridor up to the ledger: read → score → map → print → validate. Nothing is stored here.</summary>
/// <param name="reader">Reads session documents.</param>
/// <param name="sites">Says which clinics may send.</param>
/// <param name="scorer">Scores sessions.</param>
/// <param name="mapper">Maps scored sessions to FHIR.</param>
/// <param name="forms">Attaches the printed report.</param>
/// <param name="validator">Validates the mapped Bundle; not asked for before, since making it is slow and can go on beside the other steps.</param>
/// <param name="clock">Gives the time of issue.</param>
public sealed class SessionPipeline(
    SessionReader reader, SiteRegister sites, Scorer scorer, SessionMapper mapper, PresentedForms forms,
    Lazy<SessionValidator> validator, TimeProvider clock)
{
    /// <summary>Takes a document as it was received through all steps.</summary>
    public Outcome<PreparedSession> Prepare(ReadOnlyMemory<byte> document) => Prepare(reader.Read(document));

    /// <summary>Reads a document as it was received.</summary>
    public Outcome<Session> Read(ReadOnlyMemory<byte> document) => reader.Read(document);

    /// <summary>Takes a session that was read elsewhere (CSV, NDJSON) through the remaining steps.</summary>
    /// <param name="read">The session as it was read, or its problems.</param>
    /// <param name="earlier">The session its report compares it with; null if nobody looked for one.</param>
    public Outcome<PreparedSession> Prepare(Outcome<Session> read, EarlierFinding? earlier = null)
    {
        ArgumentNullException.ThrowIfNull(read);
        if (!read.Succeeded)
        {
            return new(null, read.Problems);
        }

        if (sites.Check(read.Value) is { } refused)
        {
            return new(null, read.Problems.Add(refused));
        }

        var scored = scorer.Score(read.Value);
        ReadOnlyMemory<byte> document = SessionWriter.Write(read.Value);
        var bundle = mapper.Map(scored, document, clock.GetUtcNow());
        var problems = read.Problems.AddRange(forms.Attach(bundle, earlier ?? EarlierFinding.NotLookedFor)).AddRange(validator.Value.Validate(bundle));
        var failed = problems.Any(p => p.Severity == Severity.Error);
        return new(failed ? null : new PreparedSession(scored, document, bundle, sites.TargetOf(read.Value.Site)), problems);
    }

    /// <summary>What rules conclude from a session, for the therapist to reword and sign.</summary>
    public string DraftConclusion(PreparedSession session)
    {
        ArgumentNullException.ThrowIfNull(session);
        return mapper.DraftConclusion(session.Scored);
    }
}
