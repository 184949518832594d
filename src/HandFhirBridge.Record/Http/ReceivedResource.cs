using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Http;

/// <summary>A resource as it came in: parsed and checked, beside the JSON it was parsed from.</summary>
/// <param name="Resource">The parsed resource; changed freely before it is stored.</param>
/// <param name="Json">The JSON it came as.</param>
internal sealed record ReceivedResource(Resource Resource, JsonElement Json)
{
    // Narratives are full of < and >; escaping them would double the text.
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, SkipValidation = true };

    /// <summary>
    /// The resource as JSON, every number in the very characters it came in: the SDK's own decimals lose the form of 1.00E+3 and cannot
    /// hold 1E+245, and in FHIR the digits of a decimal are part of its meaning (R4 datatypes.html#decimal).
    /// </summary>
    public string Text()
    {
        using var made = JsonDocument.Parse(FhirJsonSerializer.Default.SerializeToString(Resource));
        using var bytes = new MemoryStream();
        using (var writer = new Utf8JsonWriter(bytes, Options))
        {
            Merge(made.RootElement, Json, writer);
        }

        return Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);
    }

    private static void Merge(JsonElement made, JsonElement received, Utf8JsonWriter writer)
    {
        switch (made.ValueKind)
        {
            case JsonValueKind.Object:
                writer.WriteStartObject();
                foreach (var property in made.EnumerateObject())
                {
                    writer.WritePropertyName(property.Name);
                    var same = received.ValueKind == JsonValueKind.Object && received.TryGetProperty(property.Name, out var found) ? found : default;
                    Merge(property.Value, same, writer);
                }

                writer.WriteEndObject();
                break;
            case JsonValueKind.Array:
                writer.WriteStartArray();
                foreach (var (i, item) in made.EnumerateArray().Index())
                {
                    var same = received.ValueKind == JsonValueKind.Array && i < received.GetArrayLength() ? received[i] : default;
                    Merge(item, same, writer);
                }

                writer.WriteEndArray();
                break;
            default:
                (received.ValueKind == JsonValueKind.Number ? received : made).WriteTo(writer);
                break;
        }
    }
}
