using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Commits the withdrawal of a session as its next and last revision, within one transaction.</summary>
internal sealed class SqlWithdrawals(SqlScope scope, PayloadSeal seal, long now)
{
    /// <summary>
    /// Takes all that waits out of line and commits what <paramref name="map"/> makes. It is sent if any revision may be in a
    /// chart; else it only ends the session.
    /// </summary>
    public async Task<WithdrawalResult> WithdrawAsync(
        string site, string sessionId, PersonDecision withdrawal, Func<StandingRevision, Outcome<AcceptedSession>> map)
    {
        var any = new SessionKey(site, sessionId, 1);
        await scope.Dialect.LockSessionsAsync(scope, [any]);
        // Locked row by row too, so that none is leased meanwhile.
        var held = await scope.ListAsync<SessionRow>(
            $"""
            SELECT {SessionRow.Columns} FROM sessions s WHERE s.site = @Site AND s.session_id = @SessionId
            ORDER BY s.revision DESC {scope.Dialect.Lock}
            """,
            any);
        if (held.Count == 0)
        {
            return WithdrawalResult.NoSession;
        }

        if (held.Find(row => row.IsWithdrawal) is { } before)
        {
            return new(null, false, [Already(before)]);
        }

        var written = held.Find(MayBeInAChart);
        var standing = written ?? held[0];
        var payload = await scope.FirstAsync<PayloadSeal.PayloadRow>(
            "SELECT scheme, document, bundle, patient FROM payloads WHERE session = @Id", new { standing.Id });
        var entry = standing.ToEntry();
        var mapped = map(new(entry, seal.Open(payload!, entry.Key), held[0].Revision + 1));
        if (mapped.Value is not { } session)
        {
            return new(null, false, mapped.Problems);
        }

        await CommitAsync(session, withdrawal, standing.PatientKey, sent: written is not null);
        return new(session.Key, written is not null, []);
    }

    /// <summary>The refusal of whatever comes after a withdrawal.</summary>
    public static Problem Already(SessionRow withdrawal) => LedgerProblems.Withdrawn.At(
        "$.sessionId", $"Session {withdrawal.Site}/{withdrawal.SessionId} was withdrawn as revision {withdrawal.Revision}.", withdrawal.SessionId);

    private static bool MayBeInAChart(SessionRow row) => row.InDoubt || row.State == "sending" || row.DeliveredAt is not null;

    private async Task CommitAsync(AcceptedSession session, PersonDecision withdrawal, string patientKey, bool sent)
    {
        await scope.ExecuteAsync(
            """
            UPDATE sessions SET state = 'superseded', next_attempt_at = NULL
            WHERE site = @Site AND session_id = @SessionId AND state IN ('accepted', 'held', 'failed')
            """,
            session.Key);
        var id = await new SqlIntake(scope, seal, now).InsertAsync(session, ContentHash.Of(session.Document), patientKey, sent);
        await new SqlDecisions(scope, seal).KeepAsync(id, LedgerDecision.Withdraw, null, withdrawal);
    }
}
