using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>What persons do to entries, within one transaction with the record of who did it and why.</summary>
internal sealed class SqlOperations(SqlScope scope, PayloadSeal seal)
{
    private const string NoLaterRevision =
        "NOT EXISTS (SELECT 1 FROM sessions l WHERE l.site = s.site AND l.session_id = s.session_id AND l.revision > s.revision)";

    private const string ByKey = "s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision";

    private readonly SqlDecisions decisions = new(scope, seal);

    public async Task<bool> RetryAsync(SessionKey key, PersonDecision decision, long now)
    {
        if (await ClaimAsync(key, "s.state IN ('held', 'failed')") is not { } id)
        {
            return false;
        }

        await decisions.KeepAsync(id, LedgerDecision.Retry, null, decision);
        await PutInLineAsync(id, now);
        return true;
    }

    public async Task<RetryBatch> RetryAllAsync(LedgerQuery query, TimeSpan over, PersonDecision decision, long now)
    {
        var choice = new SqlChoice(query);
        var named = query.ProblemCode is not null;
        if (!named)
        {
            choice.Values["oneByOne"] = BulkRetry.OneByOne.ToArray();
        }

        // Rows are taken in the order of their ids, so that two who retry at once cannot wait for each other in a circle.
        var rows = await scope.ListAsync<(long Id, long AcceptedAt)>(
            $"""
            SELECT s.id, s.accepted_at FROM sessions s WHERE {choice.Where} AND s.state IN ('held', 'failed') AND {NoLaterRevision}
              {(named ? "" : $"AND {scope.Dialect.NotAmong("coalesce(s.problem_code, '')", "@oneByOne")}")}
            ORDER BY s.id {scope.Dialect.Lock}
            """,
            choice.Values);
        var last = now;
        foreach (var (place, id) in rows.OrderBy(row => row.AcceptedAt).ThenBy(row => row.Id).Select(row => row.Id).Index())
        {
            last = now + (long)(over.TotalMilliseconds * place / rows.Count);
            await decisions.KeepAsync(id, LedgerDecision.Retry, null, decision);
            await PutInLineAsync(id, last);
        }

        return rows.Count == 0
            ? new(0, null, null)
            : new(rows.Count, DateTimeOffset.FromUnixTimeMilliseconds(now), DateTimeOffset.FromUnixTimeMilliseconds(last));
    }

    public async Task<bool> HoldAsync(SessionKey key, PersonDecision decision)
    {
        if (await ClaimAsync(key, "s.state = 'accepted'") is not { } id)
        {
            return false;
        }

        await decisions.KeepAsync(id, LedgerDecision.Hold, null, decision);
        await scope.ExecuteAsync(
            "UPDATE sessions SET state = 'held', next_attempt_at = NULL, problem_code = @Code, reason = @text WHERE id = @id",
            new { id, LedgerProblems.HeldByPerson.Code, text = LedgerProblems.HeldByPerson.Title + "." });
        await scope.ExecuteAsync(
            """
            UPDATE sessions SET state = 'superseded', next_attempt_at = NULL
            WHERE site = @Site AND session_id = @SessionId AND revision < @Revision AND state = 'accepted'
            """,
            key);
        return true;
    }

    /// <summary>What an earlier attempt wrote is looked for first.</summary>
    public async Task<bool> ResolveAsync(SessionKey key, ChartChoice choice, long now)
    {
        if (await ClaimAsync(key, "s.state = 'held'") is not { } id)
        {
            return false;
        }

        await decisions.KeepAsync(id, LedgerDecision.Resolve, choice.PatientId, choice.Decision);
        await PutInLineAsync(id, now);
        return true;
    }

    /// <summary>The row, kept from all other writers; null if it does not stand so, or a later revision was accepted.</summary>
    private async Task<long?> ClaimAsync(SessionKey key, string stands)
    {
        await scope.Dialect.LockSessionsAsync(scope, [key]);
        return await scope.ScalarAsync<long?>(
            $"SELECT s.id FROM sessions s WHERE {ByKey} AND {stands} AND {NoLaterRevision} {scope.Dialect.Lock}", key);
    }

    private async Task PutInLineAsync(long id, long due) => await scope.ExecuteAsync(
        """
        UPDATE sessions SET state = 'accepted', next_attempt_at = @due, in_doubt = TRUE, problem_code = NULL, reason = NULL
        WHERE id = @id
        """,
        new { id, due });
}
