using System.Net;
using System.Text.Json;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Utility;
using Hl7.Fhir.Validation;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>Reads resources strictly: unknown elements, wrong types and impossible values are refused with their place.</summary>
internal static class FhirBody
{
    // SDK code of a value that is not of its element's type.
    private const string WrongLiteral = "PVAL123";

    private static readonly FhirJsonDeserializer Strict = new(new DeserializerSettings().UsingMode(DeserializationMode.Strict));
    private static readonly JsonDocumentOptions Options = new() { AllowDuplicateProperties = false };

    public static async Task<ReceivedResource> ReadAsync(HttpRequest request, int limit, CancellationToken cancellation)
    {
        MediaTypes.DemandJson(request.ContentType);
        if (request.ContentLength > limit)
        {
            throw TooLarge(limit);
        }

        using var bytes = new MemoryStream();
        var buffer = new byte[81920];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellation)) > 0)
        {
            bytes.Write(buffer, 0, read);
            if (bytes.Length > limit)
            {
                throw TooLarge(limit);
            }
        }

        return Parse(bytes.GetBuffer().AsMemory(0, (int)bytes.Length));
    }

    private static ReceivedResource Parse(ReadOnlyMemory<byte> utf8)
    {
        var json = Json(utf8.Span.StartsWith("\uFEFF"u8) ? utf8[3..] : utf8);
        if (json.ValueKind != JsonValueKind.Object)
        {
            throw RecordRefusal.BadRequest("The body is JSON, but not an object. Send one FHIR resource.");
        }

        Strict.TryDeserializeResource(json.GetRawText(), out var resource, out var faults);
        var wrong = faults.Where(f => !IsLargeDecimal(f)).ToList();
        return resource is not null && wrong.Count == 0
            ? new(resource, json)
            : throw new RecordRefusal(HttpStatusCode.BadRequest, [.. wrong.Select(f => Issue(f, resource?.TypeName ?? "Resource"))]);
    }

    private static JsonElement Json(ReadOnlyMemory<byte> utf8)
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

    private static RecordRefusal TooLarge(int limit) =>
        new(HttpStatusCode.RequestEntityTooLarge, OperationOutcome.IssueType.TooLong, $"The body is larger than {limit} bytes, which is the limit of this server.");

    // A decimal of FHIR may be larger than one of .NET. It is stored in the characters it came in, so nothing is lost.
    private static bool IsLargeDecimal(CodedException fault) =>
        fault is CodedValidationException { ErrorCode: WrongLiteral, BaseErrorMessage: var message }
        && message.EndsWith("not the right type of literal for a decimal.", StringComparison.Ordinal)
        && message.Split('\'') is [_, var number, _] && double.TryParse(number, System.Globalization.CultureInfo.InvariantCulture, out _);

    private static OperationOutcome.IssueComponent Issue(CodedException fault, string type)
    {
        var extended = fault as CodedValidationException;
        var path = (extended?.InstancePath ?? (fault as FhirJsonException)?.InstancePath)?.Replace("$this", type, StringComparison.Ordinal);
        return new()
        {
            Severity = OperationOutcome.IssueSeverity.Error,
            Code = extended?.IssueType ?? OperationOutcome.IssueType.Structure,
            Details = new() { Text = fault.Message.Replace("$this", type, StringComparison.Ordinal) },
            Expression = path is null ? [] : [path],
        };
    }
}
