using System.Collections.Immutable;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Counts what was removed, so that it can be told. It holds no value that was removed. Not for several threads.</summary>
public sealed class RemovalReport
{
    private readonly SortedDictionary<SafeHarborRule, long> removed = [];
    private readonly SortedDictionary<string, long> withheld = new(StringComparer.Ordinal);

    /// <summary>Resources or rows that were given out.</summary>
    public long Given { get; private set; }

    /// <summary>Elements and cells removed or made coarser, by paragraph.</summary>
    public ImmutableSortedDictionary<SafeHarborRule, long> Removed => removed.ToImmutableSortedDictionary();

    /// <summary>Resources that were not given out at all, by type.</summary>
    public ImmutableSortedDictionary<string, long> Withheld => withheld.ToImmutableSortedDictionary(StringComparer.Ordinal);

    internal void Count(SafeHarborRule rule) => removed[rule] = removed.GetValueOrDefault(rule) + 1;

    internal void CountGiven() => Given++;

    internal void CountWithheld(string type) => withheld[type] = withheld.GetValueOrDefault(type) + 1;
}
