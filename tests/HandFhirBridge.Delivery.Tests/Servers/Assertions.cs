using System.Text.Json;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Delivery.Tests.Servers;

internal static class Assertions
{
    public static void ShouldNotContainAny(this string text, params string[] parts)
    {
        foreach (var part in parts)
        {
            text.ShouldNotContain(part);
        }
    }

    /// <summary>A string of that name; null for anything else.</summary>
    public static string? Text(this JsonObject element, string name) =>
        element[name] is JsonValue value && value.GetValueKind() == JsonValueKind.String ? value.GetValue<string>() : null;
}
