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
            var reader = new Utf8JsonReader(utf8Json, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Disallow });
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
}
