using System.Collections.Immutable;
using System.Text;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Keeps what persons decide about sessions, within one transaction with what follows from it.</summary>
internal sealed class SqlDecisions(SqlScope scope, PayloadSeal seal)
{
    /// <summary>Keeps the choice and puts the session in line again; what an earlier attempt wrote is looked for first.</summary>
    public async Task<bool> ResolveAsync(SessionKey key, ChartChoice choice, long now)
    {
        await scope.Dialect.LockSessionsAsync(scope, [key]);
        var id = await scope.ScalarAsync<long?>(
            $"""
            SELECT s.id FROM sessions s WHERE s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision AND s.state = 'held'
              AND NOT EXISTS (SELECT 1 FROM sessions l WHERE l.site = s.site AND l.session_id = s.session_id AND l.revision > s.revision)
            {scope.Dialect.Lock}
            """,
            key);
        if (id is null)
        {
            return false;
        }

        await KeepAsync(id.Value, choice);
        return await scope.ExecuteAsync(
            """
            UPDATE sessions SET state = 'accepted', next_attempt_at = @now, in_doubt = TRUE, problem_code = NULL, reason = NULL
            WHERE id = @id
            """,
            new { id, now }) == 1;
    }

    /// <summary>The chart chosen last for a session of this patient at this target; a correction is of the same patient.</summary>
    public async Task<ChartChoice?> LatestAsync(SessionRow row) => await scope.FirstAsync<DecisionRow>(
        $"""
        SELECT {DecisionRow.Columns} FROM decisions d JOIN sessions s ON s.id = d.session
        WHERE s.site = @Site AND s.session_id = @SessionId AND s.patient_key = @PatientKey AND s.target = @Target AND d.action = 'resolve'
        ORDER BY s.revision DESC, d.number DESC LIMIT 1
        """,
        new { row.Site, row.SessionId, row.PatientKey, row.Target }) is { PatientId: { } chart } found
        ? new(chart, found.ReasonText(seal), found.DecidedBy, DateTimeOffset.FromUnixTimeMilliseconds(found.DecidedAt))
        : null;

    /// <summary>All decisions about a session, in order.</summary>
    public async Task<ImmutableArray<LedgerDecision>> ReadAsync(SessionKey key)
    {
        var rows = await scope.ListAsync<DecisionRow>(
            $"""
            SELECT {DecisionRow.Columns} FROM decisions d JOIN sessions s ON s.id = d.session
            WHERE s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision ORDER BY d.number
            """,
            key);
        return
        [
            .. rows.Select(row => new LedgerDecision(
                row.Number, DateTimeOffset.FromUnixTimeMilliseconds(row.DecidedAt), row.DecidedBy, row.Action, row.PatientId, row.ReasonText(seal))),
        ];
    }

    private async Task KeepAsync(long id, ChartChoice choice) => await scope.ExecuteAsync(
        """
        INSERT INTO decisions (session, number, decided_at, decided_by, action, patient_id, scheme, reason)
        SELECT @id, coalesce(max(number), 0) + 1, @at, @By, @Resolve, @PatientId, @Scheme, @reason FROM decisions WHERE session = @id
        """,
        new
        {
            id,
            at = SessionRow.Ticks(choice.At),
            choice.By,
            LedgerDecision.Resolve,
            choice.PatientId,
            seal.Scheme,
            reason = seal.Seal(choice.Reason),
        });

    private sealed class DecisionRow
    {
        public const string Columns =
            "d.number Number, d.decided_at DecidedAt, d.decided_by DecidedBy, d.action Action, d.patient_id PatientId, d.scheme Scheme, d.reason Reason";

        public int Number { get; set; }

        public long DecidedAt { get; set; }

        public string DecidedBy { get; set; } = "";

        public string Action { get; set; } = "";

        public string? PatientId { get; set; }

        public string? Scheme { get; set; }

        public byte[] Reason { get; set; } = [];

        public string ReasonText(PayloadSeal seal) => Encoding.UTF8.GetString(seal.Open(Scheme, Reason, "a decision"));
    }
}
