using System.Net;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Net.Http.Headers;

namespace HandFhirBridge.Record.Http;

/// <summary>Which formats are spoken (R4 http.html#mime-type): JSON and XML.</summary>
internal static class MediaTypes
{
    public const string FhirJson = "application/fhir+json";
    public const string FhirXml = "application/fhir+xml";

    /// <summary>One resource a line (FHIR Bulk Data Access).</summary>
    public const string FhirNdjson = "application/fhir+ndjson";

    private static readonly string[] Lines = [FhirNdjson, "application/ndjson"];

    // R4 http.html#mime-type: the generic types may be used too, and the short names in _format.
    private static readonly Dictionary<string, string> Formats = new(StringComparer.OrdinalIgnoreCase)
    {
        [FhirJson] = FhirJson, ["application/json"] = FhirJson, ["text/json"] = FhirJson, ["json"] = FhirJson,
        [FhirXml] = FhirXml, ["application/xml"] = FhirXml, ["text/xml"] = FhirXml, ["xml"] = FhirXml,
    };

    /// <summary>What the CapabilityStatement says is spoken.</summary>
    public static IReadOnlyList<string> Spoken { get; } = [FhirJson, FhirXml, "json", "xml"];

    /// <summary>The format of a body; one that is not spoken, or not in UTF-8, is refused (415).</summary>
    public static string OfBody(string? contentType) =>
        MediaTypeHeaderValue.TryParse(contentType, out var media) && media.MediaType.Value!.Contains('/', StringComparison.Ordinal) && Formats.TryGetValue(media.MediaType.Value, out var format)
        // R4 http.html#mime-type: "FHIR uses UTF-8 for all request and response bodies".
        && (!media.Charset.HasValue || HeaderUtilities.RemoveQuotes(media.Charset).Equals("utf-8", StringComparison.OrdinalIgnoreCase))
            ? format
            : throw Unsupported(contentType, $"{FhirJson} and {FhirXml}, in UTF-8");

    /// <summary>Refuses (415) a search by POST that is not a form.</summary>
    public static void DemandForm(HttpRequest request)
    {
        if (!request.HasFormContentType)
        {
            throw Unsupported(request.ContentType, "application/x-www-form-urlencoded");
        }
    }

    /// <summary>Refuses (406) a client that takes no format that is spoken.</summary>
    public static void DemandAcceptable(HttpRequest request)
    {
        var lines = request.HttpContext.GetEndpoint()?.Metadata.GetMetadata<LinesAnswer>() is not null
            && (Format(request) is { } format ? Lines.Contains(format, StringComparer.OrdinalIgnoreCase) : Accepted(request).Any(a => Lines.Contains(a.MediaType.Value, StringComparer.OrdinalIgnoreCase)));
        if (!lines && OfAnswer(request) is null)
        {
            throw new RecordRefusal(
                HttpStatusCode.NotAcceptable, OperationOutcome.IssueType.NotSupported, $"This server answers in {FhirJson} and {FhirXml} only.");
        }
    }

    /// <summary>The format a client prefers, <c>_format</c> before the header; JSON where it does not say, null where none is spoken.</summary>
    public static string? OfAnswer(HttpRequest request)
    {
        if (Format(request) is { } format)
        {
            return Formats.GetValueOrDefault(format);
        }

        var accepted = request.GetTypedHeaders().Accept;
        return accepted.Count == 0 ? FhirJson : Accepted(request)
            .Select(a => Formats.GetValueOrDefault(a.MediaType.Value!) ?? (a.MatchesAllTypes || a.MatchesAllSubTypes ? Wide(a, accepted) : null))
            .FirstOrDefault(f => f is not null);
    }

    // By quality, then by how much is said of the type; what has no quality at all is not wanted.
    private static IEnumerable<MediaTypeHeaderValue> Accepted(HttpRequest request) => request.GetTypedHeaders().Accept
        .Where(a => a.Quality is not 0).OrderByDescending(a => a, MediaTypeHeaderValueComparer.QualityComparer);

    private static string? Wide(MediaTypeHeaderValue range, IList<MediaTypeHeaderValue> accepted) => new[] { FhirJson, FhirXml }
        .Where(f => range.MatchesAllTypes || range.Type.Equals("text", StringComparison.OrdinalIgnoreCase) || range.Type.Equals("application", StringComparison.OrdinalIgnoreCase))
        .FirstOrDefault(f => !accepted.Any(a => a.Quality is 0 && Formats.GetValueOrDefault(a.MediaType.Value!) == f));

    // A plus that was not escaped arrives as a space. A search by POST has it in its form.
    private static string? Format(HttpRequest request)
    {
        var written = request.Query["_format"].ToString();
        written = written.Length > 0 ? written : request.HttpContext.Features.Get<IFormFeature>()?.Form?["_format"].ToString() ?? "";
        return written.Length > 0 ? written.Split(';')[0].Replace(' ', '+') : null;
    }

    private static RecordRefusal Unsupported(string? given, string expected) => new(
        HttpStatusCode.UnsupportedMediaType, OperationOutcome.IssueType.NotSupported, $"The body's Content-Type is \"{given}\"; this server takes {expected}.");

    /// <summary>Marks an endpoint that answers with <see cref="FhirNdjson"/>.</summary>
    internal sealed class LinesAnswer;
}
