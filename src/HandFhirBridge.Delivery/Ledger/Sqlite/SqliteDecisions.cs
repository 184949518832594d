using System.Collections.Immutable;
using System.Text;
using Dapper;
using HandFhirBridge.Delivery.Identity;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>Keeps what persons decide about sessions, within one transaction with what follows from it.</summary>
internal sealed class SqliteDecisions(SqliteConnection connection, SqliteTransaction? transaction, PayloadSeal seal)
{
    /// <summary>Keeps the choice and puts the session in line again; what an earlier attempt wrote is looked for first.</summary>
    public bool Resolve(SessionKey key, ChartChoice choice, long now)
    {
        var id = connection.ExecuteScalar<long?>(
            """
            SELECT s.id FROM sessions s WHERE s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision AND s.state = 'held'
              AND NOT EXISTS (SELECT 1 FROM sessions l WHERE l.site = s.site AND l.session_id = s.session_id AND l.revision > s.revision)
            """,
            key,
            transaction);
        if (id is null)
        {
            return false;
        }

        connection.Execute(
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
            },
            transaction);
        return connection.Execute(
            """
            UPDATE sessions SET state = 'accepted', next_attempt_at = @now, in_doubt = 1, problem_code = NULL, reason = NULL
            WHERE id = @id
            """,
            new { id, now },
            transaction) == 1;
    }

    /// <summary>The chart chosen last for a session of this patient at this target; a correction is of the same patient.</summary>
    public ChartChoice? Latest(SessionRow row) => connection.QueryFirstOrDefault<DecisionRow>(
        $"""
        SELECT {DecisionRow.Columns} FROM decisions d JOIN sessions s ON s.id = d.session
        WHERE s.site = @Site AND s.session_id = @SessionId AND s.patient_key = @PatientKey AND s.target = @Target AND d.action = 'resolve'
        ORDER BY s.revision DESC, d.number DESC
        """,
        row,
        transaction) is { PatientId: { } chart } found
        ? new(chart, found.ReasonText(seal), found.DecidedBy, DateTimeOffset.FromUnixTimeMilliseconds(found.DecidedAt))
        : null;

    /// <summary>All decisions about a session, in order.</summary>
    public ImmutableArray<LedgerDecision> Read(SessionKey key) =>
    [
        .. connection.Query<DecisionRow>(
            $"""
            SELECT {DecisionRow.Columns} FROM decisions d JOIN sessions s ON s.id = d.session
            WHERE s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision ORDER BY d.number
            """,
            key,
            transaction)
            .Select(row => new LedgerDecision(
                row.Number, DateTimeOffset.FromUnixTimeMilliseconds(row.DecidedAt), row.DecidedBy, row.Action, row.PatientId, row.ReasonText(seal))),
    ];

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
