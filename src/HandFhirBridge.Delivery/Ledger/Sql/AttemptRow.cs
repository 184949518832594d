using System.Text;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>A row of the table of attempts as Dapper reads it.</summary>
internal sealed class AttemptRow
{
    public const string Columns =
        "number Number, started_at StartedAt, duration_ms DurationMs, target Target, rung Rung, status Status, http_status HttpStatus, problem_code ProblemCode, scheme Scheme, answer Answer";

    public int Number { get; set; }

    public long StartedAt { get; set; }

    public long DurationMs { get; set; }

    public string Target { get; set; } = "";

    public int? Rung { get; set; }

    public string Status { get; set; } = "";

    public int? HttpStatus { get; set; }

    public string? ProblemCode { get; set; }

    public string? Scheme { get; set; }

    public byte[]? Answer { get; set; }

    public DeliveryAttempt ToAttempt(PayloadSeal seal) => new(
        Number,
        DateTimeOffset.FromUnixTimeMilliseconds(StartedAt),
        TimeSpan.FromMilliseconds(DurationMs),
        Target,
        Rung,
        Enum.Parse<AttemptStatus>(Status, ignoreCase: true),
        HttpStatus,
        ProblemCode,
        Answer is null ? null : Encoding.UTF8.GetString(seal.Open(Scheme, Answer, "an attempt")));
}
