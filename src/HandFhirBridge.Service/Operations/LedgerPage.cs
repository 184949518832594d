using System.Collections.Immutable;

namespace HandFhirBridge.Service.Operations;

/// <summary>A list of entries with what is needed to see where the trouble lies.</summary>
/// <param name="At">When it was read, UTC.</param>
/// <param name="OldestUnsent">When the oldest entry of the whole ledger was accepted that is not delivered; null if there is none.</param>
/// <param name="Counts">Entries of the whole ledger by state.</param>
/// <param name="Groups">What is not delivered, of the clinic and target asked for, oldest first.</param>
/// <param name="Entries">Entries that match, oldest first.</param>
/// <param name="Skip">Entries passed over.</param>
/// <param name="Take">Most entries given.</param>
/// <param name="More">True if more match behind these.</param>
public sealed record LedgerPage(
    DateTimeOffset At,
    DateTimeOffset? OldestUnsent,
    ImmutableSortedDictionary<string, int> Counts,
    ImmutableArray<ProblemGroup> Groups,
    ImmutableArray<LedgerRow> Entries,
    int Skip,
    int Take,
    bool More);
