using System.Net;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;
using Microsoft.Net.Http.Headers;

namespace HandFhirBridge.Record.Http;

/// <summary>Which formats are spoken (R4 http.html#mime-type): JSON.</summary>
internal static class MediaTypes
{
    public const string FhirJson = "application/fhir+json";

    /// <summary>One resource a line (FHIR Bulk Data Access).</summary>
    public const string FhirNdjson = "application/fhir+ndjson";

    private static readonly string[] Lines = [FhirNdjson, "application/ndjson"];
    private static readonly string[] Json = [FhirJson, "application/json", "text/json"];
    private static readonly string[] Wide = ["*/*", "application/*", "text/*"];

    /// <summary>Refuses (415) a body that is not JSON.</summary>
    public static void DemandJson(string? contentType)
    {
        if (!MediaTypeHeaderValue.TryParse(contentType, out var media) || !Json.Contains(media.MediaType.Value, StringComparer.OrdinalIgnoreCase))
        {
            throw Unsupported(contentType, FhirJson);
        }
    }

    /// <summary>Refuses (415) a search by POST that is not a form.</summary>
    public static void DemandForm(HttpRequest request)
    {
        if (!request.HasFormContentType)
        {
            throw Unsupported(request.ContentType, "application/x-www-form-urlencoded");
        }
    }

    /// <summary>Refuses (406) a client that does not take JSON; <c>_format</c> goes before the header.</summary>
    public static void DemandAcceptable(HttpRequest request)
    {
        var format = request.Query["_format"].ToString();
        var asked = format.Length > 0
            ? [format.Split(';')[0].Replace(' ', '+') is "json" ? FhirJson : format.Split(';')[0].Replace(' ', '+')]
            : request.GetTypedHeaders().Accept.Where(a => a.Quality is not 0).Select(a => a.MediaType.Value ?? "").ToList();
        if (request.HttpContext.GetEndpoint()?.Metadata.GetMetadata<LinesAnswer>() is not null && asked.Exists(a => Lines.Contains(a, StringComparer.OrdinalIgnoreCase)))
        {
            return;
        }

        if (asked.Count > 0 && !asked.Any(a => Json.Contains(a, StringComparer.OrdinalIgnoreCase) || Wide.Contains(a)))
        {
            throw new RecordRefusal(
                HttpStatusCode.NotAcceptable, OperationOutcome.IssueType.NotSupported, $"This server answers in {FhirJson} only.");
        }
    }

    private static RecordRefusal Unsupported(string? given, string expected) => new(
        HttpStatusCode.UnsupportedMediaType, OperationOutcome.IssueType.NotSupported, $"The body's Content-Type is \"{given}\"; this server takes {expected}.");

    /// <summary>Marks an endpoint that answers with <see cref="FhirNdjson"/>.</summary>
    internal sealed class LinesAnswer;
}
