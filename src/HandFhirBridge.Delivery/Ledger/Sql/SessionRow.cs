namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>A row of the table of sessions as Dapper reads it.</summary>
internal sealed class SessionRow
{
    /// <summary>Columns of a row, for a table named s.</summary>
    public const string Columns = """
        s.id Id, s.site Site, s.session_id SessionId, s.revision Revision, s.content_hash ContentHash, s.target Target, s.state State,
        s.accepted_at AcceptedAt, CASE s.state WHEN 'accepted' THEN s.next_attempt_at WHEN 'sending' THEN s.lease_until END NextAttemptAt,
        s.attempts Attempts, s.in_doubt InDoubt, s.problem_code ProblemCode, s.reason Reason, s.patient_id PatientId,
        s.patient_version PatientVersion, s.report_id ReportId, s.delivered_at DeliveredAt, s.patient_key PatientKey,
        EXISTS (SELECT 1 FROM decisions w WHERE w.session = s.id AND w.action = 'withdraw') IsWithdrawal
        """;

    public long Id { get; set; }

    public string Site { get; set; } = "";

    public string SessionId { get; set; } = "";

    public int Revision { get; set; }

    public string ContentHash { get; set; } = "";

    public string Target { get; set; } = "";

    public string State { get; set; } = "";

    public long AcceptedAt { get; set; }

    public long? NextAttemptAt { get; set; }

    public int Attempts { get; set; }

    public bool InDoubt { get; set; }

    public string? ProblemCode { get; set; }

    public string? Reason { get; set; }

    public string? PatientId { get; set; }

    public string? PatientVersion { get; set; }

    public string? ReportId { get; set; }

    public long? DeliveredAt { get; set; }

    public string PatientKey { get; set; } = "";

    public bool IsWithdrawal { get; set; }

    /// <summary>As the ledger shows it.</summary>
    public LedgerEntry ToEntry() => new(
        new(Site, SessionId, Revision),
        Enum.Parse<DeliveryState>(State, ignoreCase: true),
        ContentHash,
        Target,
        Time(AcceptedAt),
        NextAttemptAt is { } next ? Time(next) : null,
        Attempts,
        ProblemCode,
        Reason,
        PatientId,
        PatientVersion,
        ReportId,
        DeliveredAt is { } delivered ? Time(delivered) : null) { IsWithdrawal = IsWithdrawal };

    /// <summary>As a column holds a time.</summary>
    public static long Ticks(DateTimeOffset time) => time.ToUnixTimeMilliseconds();

    /// <summary>As a column holds a state or status.</summary>
    public static string Word<T>(T member)
        where T : struct, Enum => member.ToString().ToLowerInvariant();

    private static DateTimeOffset Time(long ticks) => DateTimeOffset.FromUnixTimeMilliseconds(ticks);
}
