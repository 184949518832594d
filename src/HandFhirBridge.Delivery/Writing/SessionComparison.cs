using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Compares a session with what a target keeps of it.</summary>
/// <param name="Differences">Elements kept otherwise than sent.</param>
/// <param name="Compared">Resources compared.</param>
/// <param name="NotRead">Resources that could not be read back.</param>
public sealed record SessionComparison(ImmutableArray<Difference> Differences, int Compared, ImmutableArray<string> NotRead)
{
    private const int MostShown = 20;

    /// <summary>Compares.</summary>
    /// <param name="bundle">What was written.</param>
    /// <param name="kept">What was read back, by 0-based entry.</param>
    public static SessionComparison Of(SessionBundle bundle, ImmutableDictionary<int, RecordedEntry> kept)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(kept);
        var ids = kept.ToDictionary(pair => pair.Key, pair => pair.Value.Id);
        var places = ResourcePlaces.Of(bundle, ids);
        // A device is shared by sessions and may since have been described anew by another.
        var own = bundle.Entries.Where(entry => entry.Type != "Device" && kept.ContainsKey(entry.Index)).ToList();
        return new(
            [
                .. own.Where(entry => !KeptAsSent.Is(entry.Resource, kept[entry.Index].Resource, places))
                    .SelectMany(entry => ResourceComparison.Find(entry.Label, ResourcePlaces.Lead(entry, bundle, ids).ToElement(), kept[entry.Index].Resource)),
            ],
            own.Count,
            [.. bundle.Entries.Where(entry => !kept.ContainsKey(entry.Index)).Select(entry => entry.Label)]);
    }

    /// <summary>For the record of the attempt; may quote values of the session.</summary>
    public override string ToString()
    {
        var unread = NotRead.IsEmpty ? "" : $" Not read back: {string.Join(", ", NotRead)}.";
        if (Differences.IsEmpty)
        {
            return $"{Compared} resources are kept as they were sent.{unread}";
        }

        var more = Differences.Length > MostShown ? $"; and {Differences.Length - MostShown} more" : "";
        return $"{Differences.Length} differences: {string.Join("; ", Differences.Take(MostShown))}{more}.{unread}";
    }
}
