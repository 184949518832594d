using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Takes sessions in, within one transaction.</summary>
internal sealed class SqlIntake(SqlScope scope, PayloadSeal seal, long now)
{
    /// <summary>Commits nothing by itself; the results are in the order of the sessions.</summary>
    public async Task<ImmutableArray<AcceptResult>> AcceptAsync(IReadOnlyList<AcceptedSession> sessions)
    {
        await scope.Dialect.LockSessionsAsync(scope, sessions.Select(s => s.Key));
        var results = ImmutableArray.CreateBuilder<AcceptResult>(sessions.Count);
        foreach (var session in sessions)
        {
            results.Add(await AcceptAsync(session));
        }

        return results.MoveToImmutable();
    }

    private async Task<AcceptResult> AcceptAsync(AcceptedSession session)
    {
        var hash = ContentHash.Of(session.Document);
        var held = await scope.ListAsync<SessionRow>(
            $"SELECT {SessionRow.Columns} FROM sessions s WHERE s.site = @Site AND s.session_id = @SessionId ORDER BY s.revision DESC", session.Key);
        var same = held.Find(row => row.Revision == session.Key.Revision);
        if (same?.ContentHash != hash && held.Find(row => row.IsWithdrawal) is { } withdrawal)
        {
            return Refused(AcceptOutcome.Conflict, session.Key, withdrawal, SqlWithdrawals.Already(withdrawal));
        }

        if (same is not null)
        {
            return same.ContentHash == hash ? new(AcceptOutcome.AlreadyAccepted, session.Key, hash, null) : OtherContent(session.Key, same, hash);
        }

        if (held.Count > 0 && held[0].Revision > session.Key.Revision)
        {
            return OlderRevision(session.Key, held[0]);
        }

        var patientKey = PayloadSeal.KeyOf(session.Patient);
        if (held.Find(row => row.PatientKey != patientKey && MayBeWritten(row)) is { } elsewhere)
        {
            return OtherPatient(session.Key, elsewhere);
        }

        await scope.ExecuteAsync(
            """
            UPDATE sessions SET state = 'superseded', next_attempt_at = NULL
            WHERE site = @Site AND session_id = @SessionId AND state IN ('held', 'failed')
            """,
            session.Key);
        // A correction goes where the session is, even if its site has been given another target since.
        await InsertAsync(session with { Target = held.Find(MayBeWritten)?.Target ?? session.Target }, hash, patientKey, inLine: true);
        return new(AcceptOutcome.Accepted, session.Key, hash, null);
    }

    /// <summary>False only for what surely is in no chart and never will be once a later revision stands for it.</summary>
    private static bool MayBeWritten(SessionRow row) => row.InDoubt || row.State is not ("held" or "failed" or "superseded") || row.DeliveredAt is not null;

    /// <summary>Adds a revision, in line to be sent or out of it.</summary>
    /// <returns>Its row.</returns>
    public async Task<long> InsertAsync(AcceptedSession session, string hash, string patientKey, bool inLine)
    {
        var id = await scope.ScalarAsync<long>(
            """
            INSERT INTO sessions (site, session_id, revision, content_hash, target, patient_key, state, accepted_at, next_attempt_at)
            VALUES (@Site, @SessionId, @Revision, @hash, @Target, @patientKey, @state, @now, @due) RETURNING id
            """,
            new
            {
                session.Key.Site,
                session.Key.SessionId,
                session.Key.Revision,
                hash,
                session.Target,
                patientKey,
                state = SessionRow.Word(inLine ? DeliveryState.Accepted : DeliveryState.Superseded),
                now,
                due = inLine ? now : (long?)null,
            });
        await scope.ExecuteAsync(
            "INSERT INTO payloads (session, scheme, document, bundle, patient) VALUES (@id, @Scheme, @document, @bundle, @patient)",
            new
            {
                id,
                seal.Scheme,
                document = seal.Seal(session.Document),
                bundle = seal.Seal(session.Bundle),
                patient = seal.Seal(session.Patient),
            });
        return id;
    }

    private static AcceptResult OtherContent(SessionKey key, SessionRow held, string hash) => Refused(
        AcceptOutcome.Conflict, key, held, LedgerProblems.OtherContent.At(
            "$.sessionId",
            $"Session {key} was accepted with content sha-256:{held.ContentHash}; the submitted content is sha-256:{hash}.",
            key.SessionId));

    private static AcceptResult OlderRevision(SessionKey key, SessionRow held) => Refused(
        AcceptOutcome.OlderRevision, key, held, LedgerProblems.OlderRevision.At(
            "$.revision", $"Revision {key.Revision} of session {key.Site}/{key.SessionId} comes after revision {held.Revision} was accepted."));

    private static AcceptResult OtherPatient(SessionKey key, SessionRow held) => Refused(
        AcceptOutcome.Conflict, key, held, LedgerProblems.OtherPatient.At(
            "$.patient.identifier", $"Session {key} names another patient than revision {held.Revision}, which is or may be in a chart."));

    private static AcceptResult Refused(AcceptOutcome outcome, SessionKey key, SessionRow held, Problem problem) =>
        new(outcome, key, held.ContentHash, problem);
}
