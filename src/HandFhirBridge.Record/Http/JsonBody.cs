using System.Text.Json;
using System.Text.Json.Nodes;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Http;

/// <summary>A resource in JSON (R4 json.html).</summary>
/// <param name="json">An object.</param>
internal sealed class JsonBody(JsonElement json) : WrittenBody
{
    private static readonly FhirJsonDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));
    private static readonly JsonDocumentOptions Options = new() { AllowDuplicateProperties = false };

    public override string Type => json.TryGetProperty("resourceType", out var type) && type.ValueKind == JsonValueKind.String ? type.GetString()! : "";

    public static JsonBody Of(ReadOnlyMemory<byte> utf8)
    {
        var json = Parse(utf8.Span.StartsWith("\uFEFF"u8) ? utf8[3..] : utf8);
        return json.ValueKind == JsonValueKind.Object
            ? new(json)
            : throw RecordRefusal.BadRequest("The body is JSON, but not an object. Send one FHIR resource.");
    }

    public override CheckedResource Check()
    {
        Strict.TryDeserializeResource(json.GetRawText(), out var resource, out var faults);
        return new(resource, json, Faults.Of(faults, resource, largeDecimals: true));
    }

    public override (WrittenBody? Resource, WrittenBody? Others) Unwrap()
    {
        var others = JsonObject.Create(json)!;
        if (others["parameter"] is not JsonArray parameters || parameters.FirstOrDefault(p => p is JsonObject && p["name"] is JsonValue name && name.ToString() == "resource") is not { } found)
        {
            return (null, this);
        }

        parameters.Remove(found);
        return (found["resource"] is JsonObject resource ? Of(resource) : null, parameters.Count > 0 ? Of(others) : null);
    }

    private static JsonBody Of(JsonObject node)
    {
        using var document = JsonDocument.Parse(node.ToJsonString());
        return new(document.RootElement.Clone());
    }

    private static JsonElement Parse(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            using var document = JsonDocument.Parse(utf8, Options);
            return document.RootElement.Clone();
        }
        catch (JsonException broken)
        {
            // The message of the exception may quote the body.
            throw RecordRefusal.BadRequest(broken.LineNumber is { } line
                ? $"The body is not JSON: line {line + 1}, byte {broken.BytePositionInLine + 1}."
                : "The body has an object that names a property twice. Leave one of them out.");
        }
    }
}
