using System.Text.Json;
using System.Text.Json.Nodes;
using System.Xml.Linq;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Http;

/// <summary>
/// Resources between JSON, in which they are stored, and XML. The SDK does it; the numbers then get the very characters of the other side,
/// since in FHIR the digits of a decimal are part of its meaning (R4 datatypes.html#decimal).
/// </summary>
internal static class XmlText
{
    public static readonly XNamespace Fhir = "http://hl7.org/fhir";

    // What is answered was checked when it came in, or was made here.
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Recoverable));

    /// <summary>A resource in JSON, as XML.</summary>
    public static string Of(string json)
    {
        Deserializer.TryDeserializeResource(json, out var resource, out _);
        var root = XElement.Parse(FhirXmlSerializer.Default.SerializeToString(resource!), LoadOptions.PreserveWhitespace);
        Numbers(JsonNode.Parse(json)!.AsObject(), root, (number, value) => value.Value = number.ToJsonString());
        return root.ToString(SaveOptions.DisableFormatting);
    }

    /// <summary>A resource that was read from XML, as JSON.</summary>
    /// <param name="resource">The resource.</param>
    /// <param name="root">The XML it was read from.</param>
    public static JsonElement Json(Resource resource, XElement root)
    {
        var json = JsonNode.Parse(FhirJsonSerializer.Default.SerializeToString(resource))!.AsObject();
        Numbers(json, root, (number, value) => number.ReplaceWith(Number(value.Value) ?? number.DeepClone()));
        using var document = JsonDocument.Parse(json.ToJsonString());
        return document.RootElement.Clone();
    }

    // XML allows white space and zeros in front, JSON does not.
    private static JsonValue? Number(string text)
    {
        try
        {
            return JsonNode.Parse(text) is JsonValue value && value.GetValueKind() == JsonValueKind.Number ? value : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static void Numbers(JsonObject json, XElement element, Action<JsonValue, XAttribute> take)
    {
        foreach (var (name, value) in json.ToList())
        {
            var children = element.Elements(Fhir + name).ToList();
            foreach (var (item, child) in (value is JsonArray list ? list.ToList() : [value]).Zip(children))
            {
                if (item is JsonObject inner)
                {
                    // A resource within another stands one element deeper.
                    Numbers(inner, inner.ContainsKey("resourceType") ? child.Elements().First() : child, take);
                }
                else if (item is JsonValue number && number.GetValueKind() == JsonValueKind.Number && child.Attribute("value") is { } attribute)
                {
                    take(number, attribute);
                }
            }
        }
    }
}
