using System.Collections.Immutable;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>What the ledger shows, within one connection.</summary>
internal sealed class SqlReading(SqlScope scope, PayloadSeal seal)
{
    private const string ByKey = "s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision";

    public async Task<LedgerEntry?> FindAsync(SessionKey key) =>
        (await scope.FirstAsync<SessionRow>($"SELECT {SessionRow.Columns} FROM sessions s WHERE {ByKey}", key))?.ToEntry();

    public async Task<LedgerPayload?> PayloadAsync(SessionKey key) =>
        await scope.FirstAsync<PayloadSeal.PayloadRow>(
            $"SELECT p.scheme, p.document, p.bundle, p.patient FROM payloads p JOIN sessions s ON s.id = p.session WHERE {ByKey}", key) is { } row
            ? seal.Open(row, key)
            : null;

    public async Task<ImmutableArray<DeliveryAttempt>> AttemptsAsync(SessionKey key)
    {
        var rows = await scope.ListAsync<AttemptRow>(
            $"SELECT {AttemptRow.Columns} FROM attempts WHERE session = (SELECT s.id FROM sessions s WHERE {ByKey}) ORDER BY number", key);
        return [.. rows.Select(row => row.ToAttempt(seal))];
    }

    public async Task<ImmutableArray<LedgerEntry>> ListAsync(LedgerQuery query)
    {
        var choice = new SqlChoice(query);
        var rows = await scope.ListAsync<SessionRow>(
            $"SELECT {SessionRow.Columns} FROM sessions s WHERE {choice.Where} ORDER BY s.accepted_at, s.id LIMIT @Take OFFSET @Skip", choice.Values);
        return [.. rows.Select(row => row.ToEntry())];
    }

    public async Task<ImmutableArray<LedgerGroup>> GroupAsync(LedgerQuery query)
    {
        var choice = new SqlChoice(query with { Unsent = true });
        var rows = await scope.ListAsync<(string Target, string State, string? Code, int Entries, long Oldest)>(
            $"""
            SELECT s.target, s.state, s.problem_code, count(*), min(s.accepted_at) FROM sessions s WHERE {choice.Where}
            GROUP BY s.target, s.state, s.problem_code ORDER BY min(s.accepted_at), s.target, s.state, s.problem_code
            """,
            choice.Values);
        return
        [
            .. rows.Select(row => new LedgerGroup(
                row.Target, Enum.Parse<DeliveryState>(row.State, ignoreCase: true), row.Code, row.Entries, DateTimeOffset.FromUnixTimeMilliseconds(row.Oldest))),
        ];
    }

    public async Task<LedgerCounts> CountAsync()
    {
        var counted = (await scope.ListAsync<(string State, int Count)>("SELECT state, count(*) FROM sessions GROUP BY state"))
            .ToDictionary(row => row.State, row => row.Count);
        var oldest = await scope.ScalarAsync<long?>(
            "SELECT min(accepted_at) FROM sessions WHERE state IN ('accepted', 'sending', 'held', 'failed')");
        return new LedgerCounts(
            Enum.GetValues<DeliveryState>().ToImmutableDictionary(s => s, s => counted.GetValueOrDefault(SessionRow.Word(s))),
            oldest is { } time ? DateTimeOffset.FromUnixTimeMilliseconds(time) : null);
    }

    public async Task<DateTimeOffset?> NextDueAsync() =>
        await scope.ScalarAsync<long?>(
            """
            SELECT min(d.due) FROM (
              SELECT min(next_attempt_at) AS due FROM sessions WHERE state = 'accepted'
              UNION ALL SELECT min(lease_until) FROM sessions WHERE state = 'sending') AS d
            """) is { } due
            ? DateTimeOffset.FromUnixTimeMilliseconds(due)
            : null;
}
