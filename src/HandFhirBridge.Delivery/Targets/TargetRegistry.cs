using System.Collections.Frozen;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>The configured targets.</summary>
/// <param name="targets">With names that differ.</param>
public sealed class TargetRegistry(IEnumerable<FhirTarget> targets) : IDisposable
{
    private readonly FrozenDictionary<string, FhirTarget> byName = targets.ToFrozenDictionary(t => t.Name, StringComparer.Ordinal);

    /// <summary>All of them.</summary>
    public IReadOnlyCollection<FhirTarget> All => byName.Values;

    /// <summary>Names of those that want to be left alone at present.</summary>
    public IReadOnlyCollection<string> Paused => [.. byName.Values.Where(t => t.IsPaused).Select(t => t.Name)];

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
