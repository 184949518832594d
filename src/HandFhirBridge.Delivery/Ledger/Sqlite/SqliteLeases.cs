using Dapper;
using HandFhirBridge.Assessment.Problems;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>Gives and takes back the right to send, within one transaction.</summary>
internal sealed class SqliteLeases(SqliteConnection connection, SqliteTransaction transaction, PayloadSeal seal)
{
    private const int LongestAnswer = 2_000;

    public LedgerLease? Take(string owner, DateTimeOffset now, TimeSpan duration, IReadOnlyCollection<string> pausedTargets)
    {
        EndLeases("state = 'sending' AND lease_until <= @now", SessionRow.Ticks(now));
        var row = connection.QuerySingleOrDefault<SessionRow>(
            $"""
            SELECT {SessionRow.Columns} FROM sessions s
            WHERE s.state = 'accepted' AND s.next_attempt_at <= @now {(pausedTargets.Count == 0 ? "" : "AND s.target NOT IN @pausedTargets")}
              AND NOT EXISTS (SELECT 1 FROM sessions o WHERE o.state = 'sending' AND o.patient_key = s.patient_key)
              AND NOT EXISTS (SELECT 1 FROM sessions e WHERE e.site = s.site AND e.session_id = s.session_id
                              AND e.revision < s.revision AND e.state IN ('accepted', 'sending'))
            ORDER BY s.next_attempt_at, s.id LIMIT 1
            """,
            new { now = SessionRow.Ticks(now), pausedTargets },
            transaction);
        if (row is null)
        {
            return null;
        }

        try
        {
            var payload = connection.QuerySingle<PayloadSeal.PayloadRow>(
                "SELECT scheme, document, bundle, patient FROM payloads WHERE session = @Id", new { row.Id }, transaction);
            return Lease(row, seal.Open(payload, row.ToEntry().Key), owner, now, now + duration);
        }
        catch (LedgerException failure) when (failure.Problem.Kind == LedgerProblems.Sealed)
        {
            // One session that cannot be read must not keep back those behind it.
            Hold(row.Id, failure.Problem);
            return Take(owner, now, duration, pausedTargets);
        }
    }

    private LedgerLease Lease(SessionRow row, LedgerPayload payload, string owner, DateTimeOffset now, DateTimeOffset until)
    {
        connection.Execute(
            """
            UPDATE sessions SET state = 'sending', attempts = attempts + 1, lease_owner = @owner, leased_at = @now, lease_until = @until
            WHERE id = @Id
            """,
            new { row.Id, owner, now = SessionRow.Ticks(now), until = SessionRow.Ticks(until) },
            transaction);
        var entry = row.ToEntry() with { State = DeliveryState.Sending, Attempts = row.Attempts + 1, NextAttemptAt = until };
        return new(entry, payload, row.InDoubt, owner, now, until) { Choice = new SqliteDecisions(connection, transaction, seal).Latest(row) };
    }

    private void Hold(long id, Problem problem) => connection.Execute(
        "UPDATE sessions SET state = 'held', next_attempt_at = NULL, problem_code = @Code, reason = @Message WHERE id = @id",
        new { id, problem.Code, problem.Message },
        transaction);

    public bool Complete(LedgerLease lease, AttemptResult result, DateTimeOffset now)
    {
        var key = lease.Entry.Key;
        var id = connection.ExecuteScalar<long?>(
            """
            SELECT id FROM sessions WHERE site = @Site AND session_id = @SessionId AND revision = @Revision
              AND state = 'sending' AND lease_owner = @Owner AND attempts = @Attempts
            """,
            new { key.Site, key.SessionId, key.Revision, lease.Owner, lease.Entry.Attempts },
            transaction);
        if (id is null)
        {
            return false;
        }

        Record(id.Value, lease, result);
        var next = Next(result.Status);
        connection.Execute(
            """
            UPDATE sessions SET state = @state, lease_owner = NULL, leased_at = NULL, lease_until = NULL,
              next_attempt_at = @next, in_doubt = CASE @status WHEN 'unknown' THEN 1 WHEN 'delivered' THEN 0 ELSE in_doubt END,
              problem_code = @problem, reason = @reason, patient_id = coalesce(@PatientId, patient_id),
              patient_version = coalesce(@PatientVersion, patient_version), report_id = coalesce(@ReportId, report_id),
              delivered_at = @delivered
            WHERE id = @id
            """,
            new
            {
                id,
                state = SessionRow.Word(next),
                status = SessionRow.Word(result.Status),
                next = next == DeliveryState.Accepted ? SessionRow.Ticks(result.NextAttemptAt ?? now) : (long?)null,
                problem = result.Problem?.Code,
                reason = result.Problem?.Message,
                result.PatientId,
                result.PatientVersion,
                result.ReportId,
                delivered = next == DeliveryState.Delivered ? SessionRow.Ticks(now) : (long?)null,
            },
            transaction);
        return true;
    }

    public int ReleaseAll(long now) => EndLeases("state = 'sending'", now);

    private static DeliveryState Next(AttemptStatus status) => status switch
    {
        AttemptStatus.Delivered => DeliveryState.Delivered,
        AttemptStatus.Held => DeliveryState.Held,
        AttemptStatus.Failed => DeliveryState.Failed,
        _ => DeliveryState.Accepted,
    };

    /// <summary>What was written under a lease that nobody holds is not known; the attempt is kept as interrupted.</summary>
    private int EndLeases(string which, long now)
    {
        connection.Execute(
            $"""
            INSERT INTO attempts (session, number, started_at, duration_ms, target, status)
            SELECT id, attempts, leased_at, 0, target, 'interrupted' FROM sessions WHERE {which}
            """,
            new { now },
            transaction);
        return connection.Execute(
            $"""
            UPDATE sessions SET state = 'accepted', in_doubt = 1, next_attempt_at = @now, lease_owner = NULL, leased_at = NULL, lease_until = NULL
            WHERE {which}
            """,
            new { now },
            transaction);
    }

    private void Record(long id, LedgerLease lease, AttemptResult result) => connection.Execute(
        """
        INSERT INTO attempts (session, number, started_at, duration_ms, target, rung, status, http_status, problem_code, scheme, answer)
        VALUES (@id, @Attempts, @started, @duration, @Target, @Rung, @status, @HttpStatus, @problem, @Scheme, @answer)
        """,
        new
        {
            id,
            lease.Entry.Attempts,
            started = SessionRow.Ticks(lease.StartedAt),
            duration = (long)result.Duration.TotalMilliseconds,
            lease.Entry.Target,
            result.Rung,
            status = SessionRow.Word(result.Status),
            result.HttpStatus,
            problem = result.Problem?.Code,
            seal.Scheme,
            answer = seal.Seal(result.Answer is { Length: > LongestAnswer } text ? text[..LongestAnswer] : result.Answer),
        },
        transaction);
}
