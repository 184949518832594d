using System.Globalization;
using System.Text.Json;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>A JSON value of a view together with where it stands, so that a fault in it can be named.</summary>
/// <param name="json">The value.</param>
/// <param name="location">JSON path.</param>
internal sealed class ViewElement(JsonElement json, string location)
{
    public JsonElement Json => json;

    public string Location => location;

    public ViewElement? Optional(string name) =>
        json.ValueKind == JsonValueKind.Object && json.TryGetProperty(name, out var value) && value.ValueKind != JsonValueKind.Null
            ? new ViewElement(value, $"{location}.{name}")
            : null;

    public ViewElement Required(string name) => Optional(name) ?? throw Missing(name);

    public IEnumerable<ViewElement> Many(string name) => Optional(name)?.Items() ?? [];

    public IEnumerable<ViewElement> Items() => json.ValueKind == JsonValueKind.Array
        ? json.EnumerateArray().Select((item, i) => new ViewElement(item, string.Create(CultureInfo.InvariantCulture, $"{location}[{i}]")))
        : throw Wrong("a list");

    public string Text() => json.ValueKind == JsonValueKind.String && json.GetString() is { Length: > 0 } text ? text : throw Wrong("a text");

    public bool Flag() => json.ValueKind is JsonValueKind.True or JsonValueKind.False ? json.GetBoolean() : throw Wrong("true or false");

    public ViewException Missing(string name) =>
        new(ViewProblems.ElementMissing.At($"{location}.{name}", $"The view has no {name} at {location}."));

    public ViewException Wrong(string expected) =>
        new(ViewProblems.NotUnderstood.At(location, $"{location} is {json.GetRawText()} where {expected} is expected.", json.GetRawText()));
}
