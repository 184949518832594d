namespace HandFhirBridge.Delivery.Targets;

/// <summary>How many sessions a target is given at a time, and how fast one after the other. Counts those of this process alone.</summary>
/// <param name="most">Most at a time.</param>
/// <param name="perMinute">Most begun in a minute, spread evenly; null does not limit.</param>
/// <param name="clock">Gives the time.</param>
public sealed class TargetLoad(int most, int? perMinute, TimeProvider clock)
{
    private readonly Lock gate = new();
    private readonly TimeSpan spacing = perMinute is { } rate ? TimeSpan.FromMinutes(1) / rate : TimeSpan.Zero;
    private int underWay;
    private long? lastBegun;

    /// <summary>True if no further session may be begun now.</summary>
    public bool IsFull
    {
        get
        {
            lock (gate)
            {
                return underWay >= most || Rest > TimeSpan.Zero;
            }
        }
    }

    /// <summary>Time until the rate allows the next session; zero if it does now.</summary>
    public TimeSpan Rest
    {
        get
        {
            lock (gate)
            {
                // Elapsed time, not time of day: a clock that is set back must not stop the target.
                return lastBegun is { } begun && clock.GetElapsedTime(begun) is var passed && passed < spacing ? spacing - passed : TimeSpan.Zero;
            }
        }
    }

    /// <summary>A session is begun; ended by disposing of what is returned.</summary>
    public IDisposable Begin()
    {
        lock (gate)
        {
            underWay++;
            lastBegun = clock.GetTimestamp();
            return new Turn(this);
        }
    }

    private sealed class Turn(TargetLoad load) : IDisposable
    {
        private bool ended;

        public void Dispose()
        {
            lock (load.gate)
            {
                load.underWay -= ended ? 0 : 1;
                ended = true;
            }
        }
    }
}
