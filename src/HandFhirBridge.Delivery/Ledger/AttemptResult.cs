using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What came of an attempt, as the ledger is to keep it.</summary>
/// <param name="Status">How it ended.</param>
/// <param name="Problem">What went wrong. Null only for <see cref="AttemptStatus.Delivered"/>, where it is otherwise something to know.</param>
public sealed record AttemptResult(AttemptStatus Status, Problem? Problem)
{
    /// <summary>When to try again; null unless the status asks for it.</summary>
    public DateTimeOffset? NextAttemptAt { get; init; }

    /// <summary>How long it took.</summary>
    public TimeSpan Duration { get; init; }

    /// <summary>Rung written with; null if nothing was sent.</summary>
    public int? Rung { get; init; }

    /// <summary>The target's last answer; null if there was none.</summary>
    public int? HttpStatus { get; init; }

    /// <summary>What the target said and what was done; cut to 2,000 characters. Null if there is nothing to add.</summary>
    public string? Answer { get; init; }

    /// <summary>Id of the chart; null if it was not found.</summary>
    public string? PatientId { get; init; }

    /// <summary>Version of the chart that was compared; null if unknown.</summary>
    public string? PatientVersion { get; init; }

    /// <summary>Id of the report at the target; null if unknown.</summary>
    public string? ReportId { get; init; }
}
