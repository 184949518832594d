using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>An answer that carries FHIR, or nothing.</summary>
internal sealed class FhirResult : IResult
{
    private const string MediaType = "application/fhir+json; charset=utf-8";
    private readonly string? json;
    private readonly int status;
    private readonly IReadOnlyList<KeyValuePair<string, string>> headers;

    public FhirResult(Resource resource, int status = StatusCodes.Status200OK)
        : this(FhirJsonSerializer.Default.SerializeToString(resource), status)
    {
    }

    public FhirResult(string? json, int status, params IReadOnlyList<KeyValuePair<string, string>> headers) =>
        (this.json, this.status, this.headers) = (json, status, headers);

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
            response.ContentType = MediaType;
            await response.WriteAsync(json, httpContext.RequestAborted);
        }
    }
}
