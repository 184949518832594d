using System.Text.Json;
using HandFhirBridge.Outcomes.Gather;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>
/// Reads the gathered set, each resource once: where two sources hold the same one (by our own identifiers), or one source holds it under
/// two ids, the copy changed last counts, and among equals that of the source first in order.
/// </summary>
/// <param name="set">The gathered set.</param>
internal sealed class GatheredLines(GatheredSet set)
{
    /// <summary>Lines of one resource type.</summary>
    /// <param name="type">Resource type.</param>
    /// <exception cref="RowException">A line is not JSON.</exception>
    public IEnumerable<GatheredLine> Distinct(string type)
    {
        var best = new Dictionary<string, (DateTimeOffset Updated, int Place)>();
        var place = 0;
        foreach (var (head, line, broken) in All(type).AsParallel().AsOrdered().Select(Head).AsSequential())
        {
            if (broken is not null)
            {
                throw RowException.Unreadable(line, broken);
            }

            if (!best.TryGetValue(head.Key, out var known) || head.LastUpdated > known.Updated)
            {
                best[head.Key] = (head.LastUpdated, place);
            }

            place++;
        }

        var kept = new HashSet<int>(best.Values.Select(b => b.Place));
        return All(type).Where((_, i) => kept.Contains(i));
    }

    private static (ResourceHead Head, GatheredLine Line, JsonException? Broken) Head(GatheredLine line)
    {
        try
        {
            return (ResourceHead.Read(line.Json, line.Source), line with { Json = default }, null);
        }
        catch (JsonException broken)
        {
            return (default, line with { Json = default }, broken);
        }
    }

    private IEnumerable<GatheredLine> All(string type) =>
        set.Sources().SelectMany(source => NdjsonLines.Read(set.File(source, type))
            .Select(line => new GatheredLine(source, $"{type}.ndjson", line.Number, line.Json)));
}
