using System.Buffers;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Http;

/// <summary>
/// Numbers in the very characters they came in: the SDK's own decimals lose the form of 1.00E+3 and cannot hold 1E+245, and in FHIR the
/// digits of a decimal are part of its meaning (R4 datatypes.html#decimal).
/// </summary>
internal static class WrittenNumbers
{
    // Narratives are full of < and >; escaping them would double the text.
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping, SkipValidation = true };

    /// <summary>The resource as JSON.</summary>
    /// <param name="resource">What is written, as it is now.</param>
    /// <param name="received">The same resource as it came.</param>
    /// <param name="filter">Leaves elements out; null for none.</param>
    public static string Text(Resource resource, JsonElement received, Func<SerializationFilter>? filter = null)
    {
        var made = Write(writer => FhirJsonSerializer.Default.Serialize(resource, writer, filter));
        if (!AsTheSdkWritesThem(JsonMarshal.GetRawUtf8Value(received)))
        {
            using var document = JsonDocument.Parse(made);
            made = Write(writer => Merge(document.RootElement, received, writer));
        }

        return Encoding.UTF8.GetString(made.Span);
    }

    private static ReadOnlyMemory<byte> Write(Action<Utf8JsonWriter> write)
    {
        var bytes = new ArrayBufferWriter<byte>(4096);
        using (var writer = new Utf8JsonWriter(bytes, Options))
        {
            write(writer);
        }

        return bytes.WrittenMemory;
    }

    // Most numbers are 12.5 or 3, which come out as they went in.
    private static bool AsTheSdkWritesThem(ReadOnlySpan<byte> json)
    {
        var reader = new Utf8JsonReader(json);
        Span<byte> written = stackalloc byte[64];
        while (reader.Read())
        {
            if (reader.TokenType == JsonTokenType.Number
                && !(reader.TryGetDecimal(out var number) && number.TryFormat(written, out var length, provider: CultureInfo.InvariantCulture) && reader.ValueSpan.SequenceEqual(written[..length])))
            {
                return false;
            }
        }

        return true;
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
                (Same(made, received) ? received : made).WriteTo(writer);
                break;
        }
    }

    // The serializer writes a decimal above .NET's range as text, one below it as zero; and what was left out of a list moves the others
    // up, so that the value decides.
    private static bool Same(JsonElement made, JsonElement received) =>
        received.ValueKind == JsonValueKind.Number
        && made.ValueKind is JsonValueKind.Number or JsonValueKind.String
        && double.TryParse(made.ToString(), CultureInfo.InvariantCulture, out var value)
        && (received.GetDouble().Equals(value) || (received.TryGetDecimal(out var exact) && made.ValueKind == JsonValueKind.Number && exact == made.GetDecimal()));
}
