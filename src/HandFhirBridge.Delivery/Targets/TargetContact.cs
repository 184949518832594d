namespace HandFhirBridge.Delivery.Targets;

/// <summary>Remembers whether a target answers; asks nothing itself.</summary>
/// <param name="clock">Gives the time.</param>
public sealed class TargetContact(TimeProvider clock)
{
    /// <summary>Failures in a row from which a target that has answered counts as down: one lost connection is no outage. One that never answered is down at the first.</summary>
    public const int FailuresForDown = 3;

    private readonly Lock gate = new();
    private DateTimeOffset? last;
    private DateTimeOffset? since;
    private string? because;
    private int failures;
    private bool hasAnswered;

    /// <summary>How it stands.</summary>
    public TargetStanding Standing
    {
        get
        {
            lock (gate)
            {
                return failures >= (hasAnswered ? FailuresForDown : 1)
                    ? new(TargetAvailability.Down, last, since, because)
                    : new(last is null ? TargetAvailability.Unknown : TargetAvailability.Up, last, null, null);
            }
        }
    }

    /// <summary>A request ended so.</summary>
    public void Saw(TargetAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        lock (gate)
        {
            last = clock.GetUtcNow();
            if (Failure(answer) is not { } failure)
            {
                (failures, hasAnswered) = (0, true);
                return;
            }

            if (failures++ == 0)
            {
                (since, because) = (last, failure);
            }
        }
    }

    // What any request would meet, whatever it is about. 500 and the refusals may be this session's own.
    private static string? Failure(TargetAnswer answer) => answer.Kind switch
    {
        AnswerKind.NotSent => "no connection",
        AnswerKind.NoAnswer => "no answer",
        AnswerKind.NotSignedIn => "no token",
        _ => answer.Status is 401 or 408 or 502 or 503 or 504 ? $"HTTP {answer.Status}" : null,
    };
}
