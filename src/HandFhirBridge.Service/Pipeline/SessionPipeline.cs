using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Validation;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>The corridor up to the ledger: read → score → map → validate. Nothing is stored here.</summary>
/// <param name="reader">Reads session documents.</param>
/// <param name="sites">Says which clinics may send.</param>
/// <param name="scorer">Scores sessions.</param>
/// <param name="mapper">Maps scored sessions to FHIR.</param>
/// <param name="validator">Validates the mapped Bundle.</param>
/// <param name="clock">Gives the time of issue.</param>
public sealed class SessionPipeline(
    SessionReader reader, SiteRegister sites, Scorer scorer, SessionMapper mapper, SessionValidator validator, TimeProvider clock)
{
    /// <summary>Takes a document as it was received through all steps.</summary>
    public Outcome<PreparedSession> Prepare(ReadOnlyMemory<byte> document) => Prepare(reader.Read(document));

    /// <summary>Takes a session that was read elsewhere (CSV, NDJSON) through the remaining steps.</summary>
    public Outcome<PreparedSession> Prepare(Outcome<Session> read)
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
        var problems = read.Problems.AddRange(validator.Validate(bundle));
        var failed = problems.Any(p => p.Severity == Severity.Error);
        return new(failed ? null : new PreparedSession(scored, document, bundle, sites.TargetOf(read.Value.Site)), problems);
    }
}
