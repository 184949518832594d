using System.Collections.Concurrent;

namespace HandFhirBridge.Fhir.Validation.Remembered;

/// <summary>
/// Shapes of which the validator found nothing to say. Holds at most twice the capacity: when as many as that are new, those
/// that were not asked for since the last time are forgotten. Safe for all threads.
/// </summary>
/// <param name="capacity">New shapes before the oldest go. A shape takes about 100 bytes.</param>
internal sealed class CleanShapes(int capacity = CleanShapes.Usual)
{
    // Some thousand shapes serve a clinic; the limit is for those who send something new each time.
    private const int Usual = 32_768;

    private readonly Lock _turning = new();
    private volatile ConcurrentDictionary<ShapeKey, byte> _recent = new();
    private volatile ConcurrentDictionary<ShapeKey, byte> _older = new();

    /// <summary>All that are remembered.</summary>
    internal IEnumerable<ShapeKey> All => _recent.Keys.Union(_older.Keys);

    internal bool Contains(ShapeKey shape)
    {
        if (_recent.ContainsKey(shape))
        {
            return true;
        }

        if (!_older.ContainsKey(shape))
        {
            return false;
        }

        Add(shape);
        return true;
    }

    internal void Add(ShapeKey shape)
    {
        _recent.TryAdd(shape, 0);
        if (_recent.Count > capacity)
        {
            Turn();
        }
    }

    private void Turn()
    {
        lock (_turning)
        {
            if (_recent.Count > capacity)
            {
                (_older, _recent) = (_recent, new());
            }
        }
    }
}
