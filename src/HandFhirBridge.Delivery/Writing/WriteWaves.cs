using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Parts a session into waves: none refers to what comes with it or after it, so that each may be written in any order.</summary>
internal static class WriteWaves
{
    /// <summary>Every entry, those of a wave in their order.</summary>
    /// <param name="bundle">The session; each entry stands after what it refers to.</param>
    public static ImmutableArray<ImmutableArray<SessionEntry>> Of(SessionBundle bundle)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        var waves = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var entry in bundle.Entries)
        {
            waves[entry.FullUrl] = References(entry.Resource).Select(url => waves.GetValueOrDefault(url, -1)).Append(-1).Max() + 1;
        }

        return [.. bundle.Entries.GroupBy(entry => waves[entry.FullUrl]).OrderBy(wave => wave.Key).Select(wave => wave.ToImmutableArray())];
    }

    private static IEnumerable<string> References(JsonElement resource) =>
        resource.ObjectsWithin().Select(element => element.Text("reference")).OfType<string>();
}
