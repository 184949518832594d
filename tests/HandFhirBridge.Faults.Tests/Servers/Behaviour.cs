namespace HandFhirBridge.Faults.Tests.Servers;

/// <summary>How a server misbehaves.</summary>
public enum Behaviour
{
    /// <summary>It does not.</summary>
    Good,

    /// <summary>Takes its time before and after a write, and ends a write whose client is gone.</summary>
    Slow,

    /// <summary>Every fourth request ends in 429, 500, 502, 503 or a lost connection, before the write or after it.</summary>
    Flaky,

    /// <summary>Most transactions are stored in part and answered with 200.</summary>
    HalfStoring,

    /// <summary>Looks for what a conditional create must not find, and creates a while later whatever came in between.</summary>
    Racing,
}
