using System.Collections.Frozen;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>The configured targets.</summary>
/// <param name="targets">With names that differ.</param>
public sealed class TargetRegistry(IEnumerable<FhirTarget> targets) : IDisposable
{
    private readonly FrozenDictionary<string, FhirTarget> byName = targets.ToFrozenDictionary(t => t.Name, StringComparer.Ordinal);

    /// <summary>All of them.</summary>
    public IReadOnlyCollection<FhirTarget> All => byName.Values;

    /// <summary>Names of those that take nothing at present: they want to be left alone, or have as much as they may have.</summary>
    public IReadOnlyCollection<string> Paused => [.. byName.Values.Where(t => t.IsPaused || t.Load.IsFull).Select(t => t.Name)];

    /// <summary>Shortest time until the rate of one of them allows the next session; null if no rate stands in the way.</summary>
    public TimeSpan? ShortestRest => byName.Values.Select(t => t.Load.Rest).Where(rest => rest > TimeSpan.Zero).Select(rest => (TimeSpan?)rest).Min();

    /// <summary>The target of this name; null if there is none.</summary>
    public FhirTarget? Find(string name) => byName.GetValueOrDefault(name);

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var target in byName.Values)
        {
            target.Dispose();
        }
    }
}
