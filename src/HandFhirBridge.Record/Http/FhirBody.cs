using System.Net;
using System.Text;
using System.Text.Json;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Utility;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>Reads resources strictly: unknown elements, wrong types and impossible values are refused with their place.</summary>
internal static class FhirBody
{
    private static readonly FhirJsonDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));
    private static readonly string[] MediaTypes = ["application/fhir+json", "application/json", "text/json"];

    public static async Task<Resource> ReadAsync(HttpRequest request, int limit, CancellationToken cancellation)
    {
        var media = request.ContentType?.Split(';')[0].Trim();
        if (media is not null && !MediaTypes.Contains(media, StringComparer.OrdinalIgnoreCase))
        {
            throw new RecordRefusal(
                HttpStatusCode.UnsupportedMediaType, OperationOutcome.IssueType.NotSupported, $"The body is {media}; this server takes application/fhir+json.");
        }

        using var bytes = new MemoryStream();
        var buffer = new byte[81920];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellation)) > 0)
        {
            bytes.Write(buffer, 0, read);
            if (bytes.Length > limit)
            {
                throw new RecordRefusal(HttpStatusCode.RequestEntityTooLarge, OperationOutcome.IssueType.TooLong, $"The body is larger than {limit} bytes.");
            }
        }

        return Parse(Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length));
    }

    public static Resource Parse(string json)
    {
        Resource? resource;
        IEnumerable<CodedException> faults;
        try
        {
            if (Strict.TryDeserializeResource(json, out resource, out faults) && resource is not null)
            {
                return resource;
            }
        }
        catch (JsonException broken)
        {
            throw RecordRefusal.BadRequest($"The body is not JSON: {broken.Message}");
        }

        var issues = faults.Select(Issue).ToList();
        throw new RecordRefusal(HttpStatusCode.BadRequest, OperationOutcome.IssueType.Structure, "The body is not a valid FHIR R4 resource.")
        {
            Outcome = new OperationOutcome { Issue = issues },
        };
    }

    private static OperationOutcome.IssueComponent Issue(CodedException fault) => new()
    {
        Severity = OperationOutcome.IssueSeverity.Error,
        Code = OperationOutcome.IssueType.Structure,
        Details = new() { Text = fault.Message },
        Expression = fault is ExtendedCodedException { InstancePath: { } path } ? [path] : [],
    };
}
