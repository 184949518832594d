namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>Records how attempts ended, within one transaction.</summary>
internal sealed class SqlOutcomes(SqlScope scope, PayloadSeal seal)
{
    private const int LongestAnswer = 2_000;

    /// <summary>True if some revision after the one named was accepted.</summary>
    private const string LaterRevision =
        "EXISTS (SELECT 1 FROM sessions l WHERE l.site = @Site AND l.session_id = @SessionId AND l.revision > @Revision)";

    /// <summary>
    /// True if the session of row r was withdrawn by a later revision, or a person stopped one: it is not tried again, as what
    /// comes after it looks for what it wrote.
    /// </summary>
    public const string StoppedLater =
        """
        EXISTS (SELECT 1 FROM sessions l WHERE l.site = r.site AND l.session_id = r.session_id AND l.revision > r.revision
          AND (l.state = 'held' OR EXISTS (SELECT 1 FROM decisions d WHERE d.session = l.id AND d.action = 'withdraw')))
        """;

    public async Task<bool> CompleteAsync(LedgerLease lease, AttemptResult result, DateTimeOffset now)
    {
        var key = lease.Entry.Key;
        await scope.Dialect.LockSessionsAsync(scope, [key]);
        var id = await scope.ScalarAsync<long?>(
            $"""
            SELECT s.id FROM sessions s WHERE s.site = @Site AND s.session_id = @SessionId AND s.revision = @Revision
              AND s.state = 'sending' AND s.lease_owner = @Owner AND s.attempts = @Attempts {scope.Dialect.Lock}
            """,
            new { key.Site, key.SessionId, key.Revision, lease.Owner, lease.Entry.Attempts });
        if (id is null)
        {
            return false;
        }

        await KeepAttemptAsync(id.Value, lease, result);
        await EndAsync(id.Value, await NextAsync(id.Value, result.Status, key), result, now);
        return true;
    }

    /// <summary>
    /// What would wait for a person waits for nobody once a correction is there to take its place; what would be tried again is
    /// not, once it is withdrawn or a person stopped its correction.
    /// </summary>
    private async Task<DeliveryState> NextAsync(long id, AttemptStatus status, SessionKey key)
    {
        var next = status switch
        {
            AttemptStatus.Delivered => DeliveryState.Delivered,
            AttemptStatus.Held => DeliveryState.Held,
            AttemptStatus.Failed => DeliveryState.Failed,
            _ => DeliveryState.Accepted,
        };
        if (next == DeliveryState.Accepted)
        {
            return await scope.ScalarAsync<bool>($"SELECT {StoppedLater} FROM sessions r WHERE r.id = @id", new { id }) ? DeliveryState.Superseded : next;
        }

        return next is DeliveryState.Held or DeliveryState.Failed && await scope.ScalarAsync<bool>($"SELECT {LaterRevision}", key)
            ? DeliveryState.Superseded
            : next;
    }

    private async Task EndAsync(long id, DeliveryState next, AttemptResult result, DateTimeOffset now) => await scope.ExecuteAsync(
        """
        UPDATE sessions SET state = @state, lease_owner = NULL, leased_at = NULL, lease_until = NULL,
          next_attempt_at = @next, in_doubt = CASE @status WHEN 'unknown' THEN TRUE WHEN 'delivered' THEN FALSE ELSE in_doubt END,
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
        });

    private async Task KeepAttemptAsync(long id, LedgerLease lease, AttemptResult result) => await scope.ExecuteAsync(
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
        });
}
