namespace HandFhirBridge.Outcomes.Gather;

/// <summary>How to gather.</summary>
public sealed record GatherOptions
{
    /// <summary>True asks for everything anew, so that what a source deleted goes here as well. Default false: what changed since the last time.</summary>
    public bool Full { get; init; }

    /// <summary>True searches page by page even where <c>$export</c> is offered. Default false.</summary>
    public bool SearchOnly { get; init; }

    /// <summary>Resources asked for in a page. Default 200.</summary>
    public int PageSize { get; init; } = 200;

    /// <summary>Longest wait for an answer. Default 100 s.</summary>
    public TimeSpan Timeout { get; init; } = TimeSpan.FromSeconds(100);

    /// <summary>Tries of a request that is answered by 408, 429, 500 to 504, or not at all. Default 4.</summary>
    public int Tries { get; init; } = 4;

    /// <summary>Wait before the second try where the server names none; it doubles. Default 1 s.</summary>
    public TimeSpan Pause { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Longest wait a server may ask for. Default 2 min.</summary>
    public TimeSpan LongestPause { get; init; } = TimeSpan.FromMinutes(2);

    /// <summary>Longest that an export may take. Default 2 h.</summary>
    public TimeSpan ExportTimeout { get; init; } = TimeSpan.FromHours(2);

    /// <summary>How far before the last gathering changes are asked for again, as a server may date a change before it is seen. Default 2 min.</summary>
    public TimeSpan Overlap { get; init; } = TimeSpan.FromMinutes(2);
}
