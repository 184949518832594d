using System.Text.Json;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Http;

/// <summary>A resource as it came in: parsed and checked, beside the JSON it was parsed from.</summary>
/// <param name="Resource">The parsed resource; changed freely before it is stored.</param>
/// <param name="Json">The JSON it came as.</param>
internal sealed record ReceivedResource(Resource Resource, JsonElement Json)
{
    /// <summary>The resource as JSON, every number in the very characters it came in.</summary>
    public string Text() => WrittenNumbers.Text(Resource, Json);
}
