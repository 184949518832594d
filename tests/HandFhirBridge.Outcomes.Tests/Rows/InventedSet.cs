using System.Globalization;
using System.Text.Json.Nodes;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Tests.Views;

namespace HandFhirBridge.Outcomes.Tests.Rows;

/// <summary>A gathered set in a folder of its own, made of the examples of the profiles' package. Everything in it is invented.</summary>
internal sealed class InventedSet : IDisposable
{
    private readonly string root = Directory.CreateTempSubdirectory("hfb-outcomes-").FullName;

    public GatheredSet Set => new(Path.Combine(root, "gathered"));

    public string RowsFolder => Path.Combine(root, "rows");

    /// <summary>An example of the package, with another id, identifier value, time and seconds.</summary>
    public static JsonNode Example(string name, string id, string? identifier = null, string? started = null, string? seconds = null)
    {
        var resource = JsonNode.Parse(File.ReadAllText(Path.Combine(PublishedFile.Root, "profiles", "package", "example", name + ".json")))!;
        resource["id"] = id;
        if (identifier is not null)
        {
            resource["identifier"]![0]!["value"] = identifier;
        }

        if (started is not null)
        {
            resource["effectiveDateTime"] = started;
        }

        if (seconds is not null)
        {
            resource["valueQuantity"]!["value"] = JsonNode.Parse(seconds);
        }

        resource["subject"] = new JsonObject { ["reference"] = "Patient/p1" };
        return resource;
    }

    public static JsonNode Updated(JsonNode resource, DateTimeOffset at)
    {
        resource["meta"]!["lastUpdated"] = at.ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture);
        return resource;
    }

    public void Write(string source, params IEnumerable<JsonNode> resources)
    {
        foreach (var type in resources.GroupBy(r => (string)r["resourceType"]!))
        {
            var path = Set.File(source, type.Key);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllLines(path, type.Select(r => r.ToJsonString()));
        }
    }

    public void Dispose() => Directory.Delete(root, recursive: true);
}
