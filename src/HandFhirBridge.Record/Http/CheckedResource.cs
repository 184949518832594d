using System.Net;
using System.Text.Json;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Http;

/// <summary>A resource as it was read, beside what is wrong with it.</summary>
/// <param name="Resource">The resource; null where not even its type is known.</param>
/// <param name="Json">The JSON it came as, or, of XML, what its JSON would have been.</param>
/// <param name="Faults">Each fault with its place; empty for none.</param>
internal sealed record CheckedResource(Resource? Resource, JsonElement Json, IReadOnlyList<OperationOutcome.IssueComponent> Faults)
{
    /// <exception cref="RecordRefusal">400: it has a fault.</exception>
    public ReceivedResource Demand() => Resource is not null && Faults.Count == 0 ? new(Resource, Json) : throw new RecordRefusal(HttpStatusCode.BadRequest, Faults);
}
