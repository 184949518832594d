using System.Collections.Immutable;
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

    /// <summary>
    /// Makes due what was accepted or tried in what is now the future: the clock was ahead then, and a wait that began there
    /// could last for as long as it was ahead.
    /// </summary>
    public Task<int> CallForwardAsync(long now) => scope.ExecuteAsync(
        """
        UPDATE sessions SET next_attempt_at = @now WHERE state = 'accepted' AND next_attempt_at > @now
          AND (accepted_at > @now OR EXISTS (SELECT 1 FROM attempts a WHERE a.session = sessions.id AND a.started_at > @now))
        """,
        new { now });

    /// <summary>Ends all leases, whoever holds them; the sessions are due at <paramref name="due"/>.</summary>
    /// <returns>How many there were.</returns>
    public Task<int> EndAllAsync(long due) => EndAsync("TRUE", due);

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
        var earlier = row.Revision > 1 ? await EarlierAsync(row) : [];
        await scope.ExecuteAsync(
            """
            UPDATE sessions SET state = 'sending', attempts = attempts + 1, lease_owner = @owner, leased_at = @now, lease_until = @until
            WHERE id = @Id
            """,
            new { row.Id, owner, now = SessionRow.Ticks(now), until = SessionRow.Ticks(until) });
        var entry = row.ToEntry() with { State = DeliveryState.Sending, Attempts = row.Attempts + 1, NextAttemptAt = until };
        return new(entry, payload, row.InDoubt, owner, now, until) { Choice = choice, Earlier = earlier };
    }

    /// <summary>Transactions of earlier revisions that are or may be in a chart, in their order.</summary>
    private async Task<ImmutableArray<ReadOnlyMemory<byte>>> EarlierAsync(SessionRow row)
    {
        var payloads = await scope.ListAsync<PayloadSeal.PayloadRow>(
            """
            SELECT p.scheme, p.document, p.bundle, p.patient FROM payloads p JOIN sessions s ON s.id = p.session
            WHERE s.site = @Site AND s.session_id = @SessionId AND s.revision < @Revision AND (s.in_doubt OR s.delivered_at IS NOT NULL)
            ORDER BY s.revision
            """,
            new { row.Site, row.SessionId, row.Revision });
        return [.. payloads.Select(payload => seal.Open(payload, row.ToEntry().Key).Bundle)];
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
                $"""
                UPDATE sessions AS r SET state = CASE WHEN {SqlOutcomes.StoppedLater} THEN 'superseded' ELSE 'accepted' END,
                  in_doubt = TRUE, next_attempt_at = @now, lease_owner = NULL, leased_at = NULL, lease_until = NULL
                WHERE id = @id
                """,
                new { id, now });
        }

        return ended.Count;
    }
}
