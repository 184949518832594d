using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>Reads FHIR JSON and keeps every fault, so that what can be read is checked further.</summary>
internal static class StrictReader
{
    private static readonly FhirJsonDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));

    /// <summary>The resource with the faults of the text. Unlike elsewhere there may be both a value and errors.</summary>
    internal static (Resource? Value, System.Collections.Immutable.ImmutableArray<Problem> Problems) Read(ReadOnlySpan<byte> utf8Json)
    {
        try
        {
            if (NotAResource(utf8Json) is { } reason)
            {
                return (null, [ValidationProblems.NotFhirJson.At(string.Empty, reason)]);
            }

            var reader = new Utf8JsonReader(utf8Json);
            Strict.TryDeserializeResource(ref reader, out var resource, out var faults);
            if (resource is null)
            {
                return (null, [.. faults.Select(fault => ValidationProblems.NotFhirJson.At(string.Empty, fault.Message))]);
            }

            var finding = new Finding(resource);
            return (resource, [.. faults.Select(fault => CodedFaults.ToProblem(fault, finding, resource))]);
        }
        catch (JsonException problem)
        {
            return (null, [ValidationProblems.NotFhirJson.At(string.Empty, problem.Message)]);
        }
    }

    // The library reads any object as a resource of a type unheard of, and throws at what is no object.
    private static string? NotAResource(ReadOnlySpan<byte> utf8Json)
    {
        var reader = new Utf8JsonReader(utf8Json);
        using var document = JsonDocument.ParseValue(ref reader);
        if (document.RootElement.ValueKind != JsonValueKind.Object)
        {
            return $"A resource is a JSON object; this is {document.RootElement.ValueKind}.";
        }

        return !document.RootElement.TryGetProperty("resourceType", out var type) ? "The object has no resourceType."
            : type.ValueKind == JsonValueKind.String && ModelInfo.IsKnownResource(type.GetString()!) ? null
            : $"FHIR R4 has no resource type {type.GetRawText()}.";
    }
}
