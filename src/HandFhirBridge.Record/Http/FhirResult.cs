using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>An answer that carries FHIR, or nothing.</summary>
/// <param name="json">Body, in JSON whatever the client takes; null for none.</param>
/// <param name="status">HTTP status.</param>
/// <param name="headers">Headers beside Content-Type.</param>
internal sealed class FhirResult(string? json, int status, params IReadOnlyList<KeyValuePair<string, string>> headers) : IResult, IRecordAnswer
{
    public FhirResult(Resource resource, int status = StatusCodes.Status200OK, params IReadOnlyList<KeyValuePair<string, string>> headers)
        : this(FhirJsonSerializer.Default.SerializeToString(resource), status, headers)
    {
    }

    public int? StatusCode => status;

    public IEnumerable<string> Concerns => AnswerConcerns.Of(json, headers.FirstOrDefault(h => h.Key == "Location").Value);

    public async System.Threading.Tasks.Task ExecuteAsync(HttpContext httpContext)
    {
        var response = httpContext.Response;
        response.StatusCode = status;
        foreach (var (name, value) in headers)
        {
            response.Headers[name] = value;
        }

        if (json is not null)
        {
            // What cannot be had in a format that is taken is a refusal, which is better read in JSON than not at all.
            var format = MediaTypes.OfAnswer(httpContext.Request) ?? MediaTypes.FhirJson;
            response.ContentType = $"{format}; charset=utf-8";
            response.Headers.Append("Vary", "Accept");
            await response.WriteAsync(format == MediaTypes.FhirXml ? XmlText.Of(json) : json, httpContext.RequestAborted);
        }
    }
}
