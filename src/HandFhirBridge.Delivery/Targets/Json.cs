using System.Text.Json;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>
/// Reads JSON where it lies, without trusting its shape: what is missing or of another kind counts as absent
/// (<see cref="JsonValueKind.Undefined"/>, null).
/// </summary>
internal static class Json
{
    /// <summary>True for an object; false for anything else, and for what is absent.</summary>
    public static bool IsObject(this JsonElement element) => element.ValueKind == JsonValueKind.Object;

    /// <summary>A string.</summary>
    public static string? Text(this JsonElement element, string name) =>
        Member(element, name) is { ValueKind: JsonValueKind.String } value ? value.GetString() : null;

    /// <summary>A boolean.</summary>
    public static bool? Flag(this JsonElement element, string name) => Member(element, name).ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => null,
    };

    /// <summary>A whole number.</summary>
    public static int? Number(this JsonElement element, string name) =>
        Member(element, name) is { ValueKind: JsonValueKind.Number } value && value.TryGetInt32(out var number) ? number : null;

    /// <summary>An object.</summary>
    public static JsonElement Object(this JsonElement element, string name) => Member(element, name) is { ValueKind: JsonValueKind.Object } value ? value : default;

    /// <summary>The objects of a list.</summary>
    public static IEnumerable<JsonElement> Objects(this JsonElement element, string name) =>
        Member(element, name) is { ValueKind: JsonValueKind.Array } list ? list.EnumerateArray().Where(IsObject) : [];

    /// <summary>Identifiers of a resource; R4 has one or a list by type.</summary>
    public static IEnumerable<JsonElement> Identifiers(this JsonElement resource) =>
        resource.Object("identifier") is { ValueKind: JsonValueKind.Object } single ? [single] : resource.Objects("identifier");

    /// <summary>Every object at any depth, itself first.</summary>
    public static IEnumerable<JsonElement> ObjectsWithin(this JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Array => element.EnumerateArray().SelectMany(ObjectsWithin),
        JsonValueKind.Object => element.EnumerateObject().SelectMany(member => ObjectsWithin(member.Value)).Prepend(element),
        _ => [],
    };

    private static JsonElement Member(JsonElement element, string name) =>
        element.IsObject() && element.TryGetProperty(name, out var value) ? value : default;
}
