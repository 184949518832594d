using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Reads what servers answer without trusting its shape: an element of another kind counts as absent.</summary>
internal static class Json
{
    private static readonly JsonSerializerOptions Written = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>A string.</summary>
    public static string? Text(this JsonNode? node, string name) =>
        Member(node, name) is JsonValue value && value.TryGetValue(out string? text) ? text : null;

    /// <summary>A boolean.</summary>
    public static bool? Flag(this JsonNode? node, string name) =>
        Member(node, name) is JsonValue value && value.TryGetValue(out bool flag) ? flag : null;

    /// <summary>A whole number.</summary>
    public static int? Number(this JsonNode? node, string name) =>
        Member(node, name) is JsonValue value && value.TryGetValue(out int number) ? number : null;

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

    private static JsonNode? Member(JsonNode? node, string name) => node is JsonObject owner && owner.TryGetPropertyValue(name, out var value) ? value : null;
}
