using System.Collections.Immutable;
using System.Text;
using HandFhirBridge.Delivery.Identity;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Keeps what persons decide about sessions, and reads it.</summary>
internal sealed class SqlDecisions(SqlScope scope, PayloadSeal seal)
{
    /// <summary>Keeps a decision; those before it stay.</summary>
    public async Task KeepAsync(long id, string action, string? patientId, PersonDecision decision) => await scope.ExecuteAsync(
        """
        INSERT INTO decisions (session, number, decided_at, decided_by, caller, action, patient_id, scheme, reason)
        SELECT @id, coalesce(max(number), 0) + 1, @time, @By, @Caller, @action, @patientId, @Scheme, @text FROM decisions WHERE session = @id
        """,
        new { id, time = SessionRow.Ticks(decision.At), decision.By, decision.Caller, action, patientId, seal.Scheme, text = seal.Seal(decision.Reason) });

    /// <summary>The chart chosen last for a session of this patient at this target; a correction is of the same patient.</summary>
    public async Task<ChartChoice?> LatestAsync(SessionRow row) => await scope.FirstAsync<DecisionRow>(
        $"""
        SELECT {DecisionRow.Columns} FROM decisions d JOIN sessions s ON s.id = d.session
        WHERE s.site = @Site AND s.session_id = @SessionId AND s.patient_key = @PatientKey AND s.target = @Target AND d.action = 'resolve'
        ORDER BY s.revision DESC, d.number DESC LIMIT 1
        """,
        new { row.Site, row.SessionId, row.PatientKey, row.Target }) is { PatientId: { } chart } found
        ? new(chart, new(found.DecidedBy, found.ReasonText(seal), DateTimeOffset.FromUnixTimeMilliseconds(found.DecidedAt)) { Caller = found.Caller })
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
                row.Number, DateTimeOffset.FromUnixTimeMilliseconds(row.DecidedAt), row.DecidedBy, row.Action, row.PatientId, row.ReasonText(seal)) { Caller = row.Caller }),
        ];
    }

    private sealed class DecisionRow
    {
        public const string Columns =
            "d.number Number, d.decided_at DecidedAt, d.decided_by DecidedBy, d.caller Caller, d.action Action, d.patient_id PatientId, d.scheme Scheme, d.reason Reason";

        public int Number { get; set; }

        public long DecidedAt { get; set; }

        public string DecidedBy { get; set; } = "";

        public string? Caller { get; set; }

        public string Action { get; set; } = "";

        public string? PatientId { get; set; }

        public string? Scheme { get; set; }

        public byte[] Reason { get; set; } = [];

        public string ReasonText(PayloadSeal seal) => Encoding.UTF8.GetString(seal.Open(Scheme, Reason, "a decision"));
    }
}
