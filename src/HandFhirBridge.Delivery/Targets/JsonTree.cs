using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>JSON that is made or changed here. What is only read stays where it lies (<see cref="Json"/>).</summary>
internal static class JsonTree
{
    private static readonly JsonSerializerOptions Written = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>A copy to be changed; numbers keep their digits.</summary>
    /// <param name="element">An object.</param>
    public static JsonObject ToTree(this JsonElement element) => JsonObject.Create(element)!;

    /// <summary>A string; null if there is none of that name.</summary>
    public static string? Text(this JsonNode? node, string name) =>
        Member(node, name) is JsonValue value && value.TryGetValue(out string? text) ? text : null;

    /// <summary>An object.</summary>
    public static JsonObject? Object(this JsonNode? node, string name) => Member(node, name) as JsonObject;

    /// <summary>The objects of a list.</summary>
    public static IEnumerable<JsonObject> Objects(this JsonNode? node, string name) =>
        (Member(node, name) as JsonArray)?.OfType<JsonObject>() ?? [];

    /// <summary>Every object at any depth, itself first. What is changed on the way does not change where it goes.</summary>
    public static IEnumerable<JsonObject> ObjectsWithin(this JsonNode? node) => node switch
    {
        JsonArray list => list.ToList().SelectMany(ObjectsWithin),
        JsonObject element => element.Select(member => member.Value).ToList().SelectMany(ObjectsWithin).Prepend(element),
        _ => [],
    };

    /// <summary>UTF-8; numbers keep their digits.</summary>
    public static byte[] ToBytes(this JsonNode node) => JsonSerializer.SerializeToUtf8Bytes(node, Written);

    /// <summary>The same to be read, as it would be written.</summary>
    public static JsonElement ToElement(this JsonNode node) => JsonElement.Parse(node.ToBytes());

    private static JsonNode? Member(JsonNode? node, string name) => node is JsonObject owner && owner.TryGetPropertyValue(name, out var value) ? value : null;
}
