namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>How long to wait between attempts.</summary>
public sealed class RetryOptions
{
    /// <summary>First wait after a passing trouble; doubled each time. Default 2 s, range 100 ms to 1 h.</summary>
    public TimeSpan First { get; set; } = TimeSpan.FromSeconds(2);

    /// <summary>First wait after an error that may be permanent (500 and the like), or a write without an answer, on which the server may still be at work; also the wait before what a killed process was sending is looked for; doubled each time. Default 30 s, range 100 ms to 1 day.</summary>
    public TimeSpan FirstAfterError { get; set; } = TimeSpan.FromSeconds(30);

    /// <summary>Longest wait. Default 6 h, range 1 s to 7 days.</summary>
    public TimeSpan Longest { get; set; } = TimeSpan.FromHours(6);

    /// <summary>Attempts that may end in the same error before the session becomes a dead letter. Passing troubles do not count. Default 5, range 1 to 100.</summary>
    public int ErrorLimit { get; set; } = 5;
}
