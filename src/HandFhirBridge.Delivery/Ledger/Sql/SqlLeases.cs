using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Gives the right to send and ends it where its holder fell silent, within one transaction.</summary>
internal sealed class SqlLeases(SqlScope scope, PayloadSeal seal)
{
    public async Task<LedgerLease?> TakeAsync(string owner, DateTimeOffset now, TimeSpan duration, IReadOnlyCollection<string> pausedTargets)
    {
        await EndAsync("s.lease_until <= @now", SessionRow.Ticks(now));
        while (await NextAsync(SessionRow.Ticks(now), [.. pausedTargets]) is { } row)
        {
            var payload = await scope.FirstAsync<PayloadSeal.PayloadRow>(
                "SELECT scheme, document, bundle, patient FROM payloads WHERE session = @Id", new { row.Id });
            try
            {
                return await LeaseAsync(row, seal.Open(payload!, row.ToEntry().Key), owner, now, now + duration);
            }
            catch (LedgerException failure) when (failure.Problem.Kind == LedgerProblems.Sealed)
            {
                // One session that cannot be read must not keep back those behind it.
                await HoldAsync(row.Id, failure.Problem);
            }
        }

        return null;
    }

    /// <summary>Ends all leases, whoever holds them.</summary>
    /// <returns>How many there were.</returns>
    public Task<int> EndAllAsync(long now) => EndAsync("TRUE", now);

    private Task<SessionRow?> NextAsync(long now, string[] pausedTargets) => scope.FirstAsync<SessionRow>(
        $"""
        SELECT {SessionRow.Columns} FROM sessions s
        WHERE s.state = 'accepted' AND s.next_attempt_at <= @now {(pausedTargets.Length == 0 ? "" : $"AND {scope.Dialect.NotAmong("s.target", "@pausedTargets")}")}
          AND NOT EXISTS (SELECT 1 FROM sessions o WHERE o.state = 'sending' AND o.patient_key = s.patient_key)
          AND NOT EXISTS (SELECT 1 FROM sessions e WHERE e.site = s.site AND e.session_id = s.session_id
                          AND e.revision < s.revision AND e.state IN ('accepted', 'sending'))
        ORDER BY s.next_attempt_at, s.id LIMIT 1 {scope.Dialect.Claim}
        """,
        new { now, pausedTargets });

    private async Task<LedgerLease> LeaseAsync(SessionRow row, LedgerPayload payload, string owner, DateTimeOffset now, DateTimeOffset until)
    {
        var choice = await new SqlDecisions(scope, seal).LatestAsync(row);
        await scope.ExecuteAsync(
            """
            UPDATE sessions SET state = 'sending', attempts = attempts + 1, lease_owner = @owner, leased_at = @now, lease_until = @until
            WHERE id = @Id
            """,
            new { row.Id, owner, now = SessionRow.Ticks(now), until = SessionRow.Ticks(until) });
        var entry = row.ToEntry() with { State = DeliveryState.Sending, Attempts = row.Attempts + 1, NextAttemptAt = until };
        return new(entry, payload, row.InDoubt, owner, now, until) { Choice = choice };
    }

    private async Task HoldAsync(long id, Problem problem) => await scope.ExecuteAsync(
        "UPDATE sessions SET state = 'held', next_attempt_at = NULL, problem_code = @Code, reason = @Message WHERE id = @id",
        new { id, problem.Code, problem.Message });

    /// <summary>What was written under a lease that nobody holds is not known; the attempt is kept as interrupted.</summary>
    private async Task<int> EndAsync(string which, long now)
    {
        var ended = await scope.ListAsync<long>(
            $"SELECT s.id FROM sessions s WHERE s.state = 'sending' AND {which} ORDER BY s.id {scope.Dialect.Claim}", new { now });
        foreach (var id in ended)
        {
            await scope.ExecuteAsync(
                """
                INSERT INTO attempts (session, number, started_at, duration_ms, target, status)
                SELECT id, attempts, leased_at, 0, target, 'interrupted' FROM sessions WHERE id = @id
                """,
                new { id });
            await scope.ExecuteAsync(
                """
                UPDATE sessions SET state = 'accepted', in_doubt = TRUE, next_attempt_at = @now,
                  lease_owner = NULL, leased_at = NULL, lease_until = NULL
                WHERE id = @id
                """,
                new { id, now });
        }

        return ended.Count;
    }
}
