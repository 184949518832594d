namespace HandFhirBridge.Record.Storage;

/// <summary>
/// The clock that versions are dated by: it never goes back, and what is written after a snapshot is dated after it, so that a client
/// who asks for what changed since a snapshot misses nothing and gets nothing twice.
/// </summary>
/// <param name="inner">The machine's clock.</param>
internal sealed class RecordClock(TimeProvider inner) : TimeProvider
{
    private readonly Lock turn = new();
    private DateTimeOffset last = DateTimeOffset.MinValue;

    public override DateTimeOffset GetUtcNow()
    {
        lock (turn)
        {
            var now = inner.GetUtcNow();
            return last = now > last ? now : last;
        }
    }

    /// <summary>The instant of a snapshot, in the whole milliseconds that versions are dated by. No write may be under way.</summary>
    public DateTimeOffset Snapshot()
    {
        lock (turn)
        {
            var now = GetUtcNow();
            now = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerMillisecond));
            last = now.AddMilliseconds(1);
            return now;
        }
    }
}
