using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Operations.Validation;
using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary><c>$validate</c>, answered with 200 whatever is found: "A 4xx or 5xx error means that the validation itself could not be performed".</summary>
/// <param name="database">Where resources lie.</param>
/// <param name="options">Limits.</param>
/// <param name="basePath">Path of the FHIR base.</param>
internal sealed class ValidationEndpoints(RecordDatabase database, RecordOptions options, string basePath)
{
    public Task<IResult> TypeAsync(HttpRequest request, string type, CancellationToken cancellation) => RunAsync(request, type, null, cancellation);

    public Task<IResult> InstanceAsync(HttpRequest request, string type, string id, CancellationToken cancellation) => RunAsync(request, type, id, cancellation);

    private async Task<IResult> RunAsync(HttpRequest request, string type, string? id, CancellationToken cancellation)
    {
        ResourceTypes.Demand(type);
        var body = HttpMethods.IsGet(request.Method) || request.ContentLength is 0 ? null : await FhirBody.WrittenAsync(request, options.MaxBodyBytes, cancellation);
        var asked = ValidationRequest.Of(type, id, body, QueryText.Parse(request.QueryString.Value ?? ""), options.Profiles);
        var validator = new Validator(database, options, RecordRoutes.BaseOf(request, basePath));
        return new FhirResult(await validator.RunAsync(asked, request.Headers.IfMatch is [{ } tag, ..] ? tag : null, request.Headers["If-None-Exist"], cancellation));
    }
}
