using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>Keeps all that is logged, and tells when a word appears.</summary>
internal sealed class LogCollector : ILoggerProvider, ILogger
{
    private readonly ConcurrentQueue<string> lines = [];
    private readonly ConcurrentDictionary<string, TaskCompletionSource> awaited = new(StringComparer.Ordinal);

    public string Text => string.Join('\n', lines);

    public Task Seen(string word)
    {
        var seen = awaited.GetOrAdd(word, _ => new(TaskCreationOptions.RunContinuationsAsynchronously));
        if (Text.Contains(word, StringComparison.Ordinal))
        {
            seen.TrySetResult();
        }

        return seen.Task;
    }

    public ILogger CreateLogger(string categoryName) => this;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull
    {
        lines.Enqueue(state.ToString()!);
        return null;
    }

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
    {
        lines.Enqueue(formatter(state, exception) + exception);
        foreach (var (_, seen) in awaited.Where(a => lines.Last().Contains(a.Key, StringComparison.Ordinal)))
        {
            seen.TrySetResult();
        }
    }

    public void Dispose()
    {
        // Nothing is held.
    }
}
