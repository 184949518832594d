using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>
/// Bundles changed at random. Each holds one resource of a good bundle with all it refers to, so that both verdicts on it
/// take little, or the whole bundle; mostly the one resource is changed, at times its companions or the bundle itself.
/// </summary>
/// <param name="seed">The same seed gives the same bundle for a number.</param>
/// <param name="good">Good bundles as FHIR JSON.</param>
internal sealed class MutatedBundles(int seed, string[] good)
{
    private const string Internal = "urn:uuid:";

    private readonly JsonObject[] _good = [.. good.Select(text => JsonNode.Parse(text)!.AsObject())];

    /// <summary>The bundle of a number, with what was changed in it.</summary>
    internal (Resource Bundle, string Changes) Make(int number)
    {
        var random = new Random(HashCode(seed, number));
        var mutation = new Mutation(random, _good.Take(3));
        var source = _good[random.Next(_good.Length)];
        var bundle = random.Next(40) == 0 ? source.DeepClone().AsObject() : Part(source, random);
        List<string> changes = [];
        for (var left = 1 + random.Next(3); left > 0; left--)
        {
            var target = random.Next(20) switch
            {
                0 => bundle,
                1 => bundle["entry"] is JsonArray { Count: > 0 } entries ? entries[random.Next(entries.Count)] as JsonObject : null,
                _ => ((bundle["entry"] as JsonArray)?.FirstOrDefault() as JsonObject)?["resource"] as JsonObject,
            };
            if (target is { Count: > 0 } && mutation.Make(target) is { } change)
            {
                changes.Add(change);
            }
        }

        return (Read(bundle), string.Join("; ", changes));
    }

    /// <summary>What can be read of it, faults included, as they are validated.</summary>
    private static Resource Read(JsonObject bundle)
    {
        try
        {
            var reader = new Utf8JsonReader(Encoding.UTF8.GetBytes(bundle.ToJsonString()));
            new FhirJsonDeserializer(new DeserializerSettings().UsingMode(DeserializationMode.Ostrich)).TryDeserializeResource(ref reader, out var resource, out _);
            return resource ?? new Bundle();
        }
        catch (JsonException)
        {
            // The parser loses its place at some texts; nothing is left to validate then.
            return new Bundle();
        }
    }

    private static JsonObject Part(JsonObject source, Random random)
    {
        var entries = source["entry"]!.AsArray();
        var byAddress = entries.ToDictionary(entry => (string)entry!["fullUrl"]!, entry => entry!, StringComparer.Ordinal);

        // Resources that name all others (report, provenance) are as rarely taken as there are few of them.
        var first = entries[random.Next(entries.Count)]!;
        List<JsonNode> taken = [first];
        for (var at = 0; at < taken.Count; at++)
        {
            taken.AddRange(Addresses(taken[at]["resource"]!).Distinct().Select(address => byAddress[address]).Where(entry => !taken.Contains(entry)));
        }

        var part = source.DeepClone().AsObject();
        part["entry"] = new JsonArray([.. taken.Select(entry => entry.DeepClone())]);
        return part;
    }

    private static IEnumerable<string> Addresses(JsonNode node) => node switch
    {
        JsonObject map => map.SelectMany(member => member.Value is null ? [] : Addresses(member.Value)),
        JsonArray list => list.SelectMany(item => Addresses(item!)),
        JsonValue value when value.GetValueKind() == JsonValueKind.String && value.GetValue<string>().StartsWith(Internal, StringComparison.Ordinal) => [value.GetValue<string>()],
        _ => [],
    };

    // Stable from run to run, so that a number found wanting can be made again.
    private static int HashCode(int seed, int number) => unchecked((int)(((uint)seed * 2654435761u) ^ ((uint)number * 2246822519u)));
}
