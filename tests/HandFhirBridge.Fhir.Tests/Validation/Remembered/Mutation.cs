using System.Globalization;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>Changes JSON of resources at random, in the ways that mappers, hand edits and faulty transport do.</summary>
/// <param name="random">What decides; the same seed makes the same changes.</param>
/// <param name="corpus">Good resources that values are taken from, so that codes, units and addresses of other places turn up.</param>
internal sealed class Mutation(Random random, IEnumerable<JsonNode> corpus)
{
    private static readonly string[] Numbers =
        ["0", "-1", "1", "2", "2.00", "1.99", "1.999999", "2.01", "-0.01", "0.000000001", "120", "12.40", "1e3", "99999999999999999999999999999", "0.0"];

    private static readonly string[] Words =
    [
        "", " ", "\t", "\u00a0", "x", " x", "x ", "#x", "#", "\u0001", "\ud800", "DEMONSTRATION", "sha-256:abc", "2026-02-30", "2026-02-03", "2026-02-03T09:00:00",
        "2026-02-03T09:00:00Z", "2026-02-03T09:00:60+01:00", "2026-02-03T09:00:00.5+01:00", "0000-01-01T00:00:00Z", "Patient/1", "Observation/1", "Device?identifier=x",
        "urn:uuid:6f9619ff-8b86-5011-b42d-00cf4fc964ff", "urn:oid:1.2.3", "http://[", "final", "error", "s", "min", "<", "<=", ">", "N", "H", "1", "true",
        "<div xmlns=\"http://www.w3.org/1999/xhtml\">x</div>", "<div xmlns=\"http://www.w3.org/1999/xhtml\"> </div>", "<div>x</div>",
        "<div xmlns=\"http://www.w3.org/1999/xhtml\"><script>x</script></div>", "<div xmlns=\"http://www.w3.org/1999/xhtml\"><p>x</div>",
    ];

    private readonly Dictionary<string, string[]> _seen = Harvest(corpus);

    /// <summary>Makes one change somewhere in an object.</summary>
    /// <returns>What was done, for the report; null if nothing could be done at the place chosen.</returns>
    internal string? Make(JsonObject root)
    {
        var places = Places(root).ToList();
        var (holder, key) = places[random.Next(places.Count)];
        var value = Get(holder, key);
        var kind = random.Next(12);
        var done = kind switch
        {
            0 => Remove(holder, key),
            1 => Double(holder, key),
            2 => Swap(holder),
            3 => Set(holder, key, JsonValue.Create(Words[random.Next(Words.Length)])),
            4 => Set(holder, key, JsonNode.Parse(Numbers[random.Next(Numbers.Length)])),
            5 => Add(holder),
            6 => Set(holder, key, random.Next(3) switch { 0 => new JsonObject(), 1 => new JsonArray(), _ => JsonValue.Create(true) }),
            7 or 8 when value is JsonValue => FromElsewhere(holder, key),
            9 or 10 when value is JsonValue => Digits(holder, key, value),
            11 when value is JsonValue => Letter(holder, key, value),
            _ => null,
        };
        return done is null ? null : string.Create(CultureInfo.InvariantCulture, $"{done} at {root.GetPath()} {Path(holder, key)}");
    }

    private static string Path(JsonNode holder, object key) => $"{holder.GetPath()} [{key}]";

    private static IEnumerable<(JsonNode Holder, object Key)> Places(JsonNode node) => node switch
    {
        JsonObject map => map.SelectMany(member => Below(map, member.Key, member.Value)),
        JsonArray list => list.SelectMany((item, at) => Below(list, at, item)),
        _ => [],
    };

    private static IEnumerable<(JsonNode Holder, object Key)> Below(JsonNode holder, object key, JsonNode? value) =>
        value is null ? [(holder, key)] : Places(value).Prepend((holder, key));

    private static Dictionary<string, string[]> Harvest(IEnumerable<JsonNode> corpus) =>
        (from root in corpus
         from place in Places(root)
         where place.Key is string && Get(place.Holder, place.Key) is JsonValue
         group Get(place.Holder, place.Key)!.ToJsonString() by (string)place.Key).ToDictionary(values => values.Key, values => values.Distinct().ToArray(), StringComparer.Ordinal);

    private static JsonNode? Get(JsonNode holder, object key) => holder is JsonObject map ? map[(string)key] : ((JsonArray)holder)[(int)key];

    private static string Set(JsonNode holder, object key, JsonNode? value)
    {
        if (holder is JsonObject map)
        {
            map[(string)key] = value;
        }
        else
        {
            ((JsonArray)holder)[(int)key] = value;
        }

        return $"set to {value?.ToJsonString()}";
    }

    private static string Remove(JsonNode holder, object key)
    {
        if (holder is JsonObject map)
        {
            map.Remove((string)key);
        }
        else
        {
            ((JsonArray)holder).RemoveAt((int)key);
        }

        return "removed";
    }

    private static string? Double(JsonNode holder, object key)
    {
        if (holder is not JsonArray list)
        {
            return null;
        }

        list.Insert((int)key, list[(int)key]?.DeepClone());
        return "doubled";
    }

    private string? Swap(JsonNode holder)
    {
        if (holder is not JsonArray { Count: > 1 } list)
        {
            return null;
        }

        var (one, other) = (random.Next(list.Count), random.Next(list.Count));
        var (first, second) = (list[one]?.DeepClone(), list[other]?.DeepClone());
        (list[one], list[other]) = (second, first);
        return $"swapped {one} with {other}";
    }

    private string? Add(JsonNode holder)
    {
        if (holder is not JsonObject map)
        {
            return null;
        }

        var (name, value) = random.Next(6) switch
        {
            0 => ("id", "x1"),
            1 => ("extension", """[{"url":"https://elsewhere.example/unknown","valueString":"x"}]"""),
            2 => ("modifierExtension", """[{"url":"https://elsewhere.example/unknown","valueBoolean":true}]"""),
            3 => ("contained", """[{"resourceType":"Device","id":"x"}]"""),
            4 => ("unheardOf", "7"),
            _ => (_seen.Keys.ElementAt(random.Next(_seen.Count)), string.Empty),
        };
        map[name] = value.Length == 0 ? JsonNode.Parse(_seen[name][random.Next(_seen[name].Length)]) : value == "x1" ? JsonValue.Create(value) : JsonNode.Parse(value);
        return $"added {name}";
    }

    private string? FromElsewhere(JsonNode holder, object key) =>
        key is string name && _seen.TryGetValue(name, out var values) ? Set(holder, key, JsonNode.Parse(values[random.Next(values.Length)])) : null;

    private string? Digits(JsonNode holder, object key, JsonNode value)
    {
        var text = value.ToJsonString();
        int[] digits = [.. Enumerable.Range(0, text.Length).Where(at => char.IsAsciiDigit(text[at]))];
        if (digits.Length == 0)
        {
            return null;
        }

        var at = digits[random.Next(digits.Length)];
        var changed = text[..at] + random.Next(10) + text[(at + 1)..];
        try
        {
            return Set(holder, key, JsonNode.Parse(changed));
        }
        catch (System.Text.Json.JsonException)
        {
            return null;
        }
    }

    private string? Letter(JsonNode holder, object key, JsonNode value)
    {
        if (value.GetValueKind() != System.Text.Json.JsonValueKind.String || value.GetValue<string>() is not { Length: > 0 } text)
        {
            return null;
        }

        var at = random.Next(text.Length);
        return Set(holder, key, random.Next(4) switch
        {
            0 => text.Remove(at, 1),
            1 => text.Insert(at, Words[random.Next(Words.Length)]),
            2 => text[..at] + (char.IsUpper(text[at]) ? char.ToLowerInvariant(text[at]) : char.ToUpperInvariant(text[at])) + text[(at + 1)..],
            _ => text[..at],
        });
    }
}
