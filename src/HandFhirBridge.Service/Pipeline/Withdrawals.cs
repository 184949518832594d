using System.Collections.Immutable;
using System.Text;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Operations;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>Withdraws sessions: marks the resources as they were committed, validates them, and commits them as the last revision.</summary>
/// <param name="ledger">Where the withdrawal is committed.</param>
/// <param name="forms">Puts the printed notice in place of the printed report.</param>
/// <param name="validator">Validates the withdrawn resources.</param>
/// <param name="clock">Gives the time of the withdrawal.</param>
public sealed class Withdrawals(ILedger ledger, PresentedForms forms, SessionValidator validator, TimeProvider clock)
{
    /// <summary>Most characters of a reason.</summary>
    public const int LongestReason = 1_000;

    /// <summary>Most characters of a name.</summary>
    public const int LongestName = 200;

    private static readonly FhirJsonDeserializer Parser = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));

    /// <summary>Withdraws a session.</summary>
    /// <param name="site">Id of the clinic.</param>
    /// <param name="sessionId">The client's id.</param>
    /// <param name="reason">Why, in words.</param>
    /// <param name="by">Who withdraws.</param>
    /// <param name="caller">Subject of the sign-in; null for the command line.</param>
    /// <param name="cancellation">Gives up waiting for the ledger.</param>
    /// <returns>What was committed, or every problem; nothing is half done.</returns>
    public async Task<WithdrawalResult> WithdrawAsync(string site, string sessionId, string? reason, string? by, string? caller, CancellationToken cancellation)
    {
        var problems = DecisionCheck.Find(reason, by, ServiceProblems.WithdrawalIncomplete).ToImmutableArray();
        if (!problems.IsEmpty)
        {
            return new(null, false, problems);
        }

        var withdrawal = new PersonDecision(by!.Trim(), reason!.Trim(), clock.GetUtcNow()) { Caller = caller };
        var done = await ledger.WithdrawAsync(site, sessionId, withdrawal, standing => Map(standing, withdrawal), cancellation);
        return done is { Key: null, Problems.IsEmpty: true }
            ? done with { Problems = [ServiceProblems.NoSession(site, sessionId)] }
            : done;
    }

    private Outcome<AcceptedSession> Map(StandingRevision standing, PersonDecision decided)
    {
        var key = standing.Entry.Key with { Revision = standing.Next };
        var withdrawal = new Withdrawal(
            new(key.Site, key.SessionId), key.Revision, standing.Entry.Key.Revision, standing.Entry.ContentHash, decided.Reason, decided.By, decided.At);
        var statement = WithdrawalStatement.Write(withdrawal);
        var bundle = WithdrawalMapper.Map(Parser.Deserialize<Bundle>(Encoding.UTF8.GetString(standing.Payload.Bundle.Span)), withdrawal, statement);
        forms.AttachWithdrawal(bundle, key.Site, key.SessionId);
        var problems = validator.Validate(bundle);
        return problems.Any(problem => problem.Severity == Severity.Error)
            ? new(null, problems)
            : new(new(key, statement, FhirJsonSerializer.Default.SerializeToBytes(bundle), standing.Payload.Patient, standing.Entry.Target), problems);
    }
}
