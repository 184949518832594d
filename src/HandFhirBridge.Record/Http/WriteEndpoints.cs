using HandFhirBridge.Record.Bundles;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>Interactions that write. The body is read and checked before the write lock is asked for.</summary>
/// <param name="database">Where resources lie.</param>
/// <param name="options">Limits.</param>
/// <param name="basePath">Path of the FHIR base.</param>
internal sealed class WriteEndpoints(RecordDatabase database, RecordOptions options, string basePath)
{
    public async Task<IResult> CreateAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        var received = await BodyAsync(request, type, cancellation);
        string? condition = request.Headers["If-None-Exist"];
        return await WriteAsync(request, (session, matching) => new CreateInteraction(session, matching).Run(received, condition), cancellation);
    }

    public async Task<IResult> UpdateAsync(HttpRequest request, string type, string id, CancellationToken cancellation)
    {
        var received = await BodyAsync(request, type, cancellation);
        return await WriteAsync(request, (session, matching) => new UpdateInteraction(session, matching).Run(received, id, IfMatch(request), IfNoneMatch(request)), cancellation);
    }

    public async Task<IResult> ConditionalUpdateAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        var received = await BodyAsync(request, type, cancellation);
        var condition = request.QueryString.Value ?? "";
        return await WriteAsync(
            request, (session, matching) => new UpdateInteraction(session, matching).RunConditional(received, condition, IfMatch(request)), cancellation);
    }

    public async Task<IResult> DeleteAsync(HttpRequest request, string type, string id, CancellationToken cancellation)
    {
        ResourceTypes.Demand(type);
        return await WriteAsync(request, (session, _) => new DeleteInteraction(session).Run(type, id, IfMatch(request)), cancellation);
    }

    public async Task<IResult> BundleAsync(HttpRequest request, CancellationToken cancellation)
    {
        var received = await FhirBody.ReadAsync(request, options.MaxBodyBytes, cancellation);
        var processor = new BundleProcessor(database, options, RecordRoutes.BaseOf(request, basePath), Preference.Of(request));
        return new FhirResult(await processor.ProcessAsync(received, cancellation), StatusCodes.Status200OK);
    }

    private async Task<FhirResult> WriteAsync(HttpRequest request, Func<RecordSession, SingleMatch, Written> write, CancellationToken cancellation)
    {
        var baseUrl = RecordRoutes.BaseOf(request, basePath);
        Written written;
        using (var session = await database.WriteAsync(cancellation))
        {
            written = write(session, new SingleMatch(session, options, baseUrl));
            // Committed before it is answered for.
            session.Commit();
        }

        var (resource, status) = written;
        if (status == StatusCodes.Status204NoContent || resource is null)
        {
            return new((string?)null, StatusCodes.Status204NoContent, resource is null ? [] : ReadEndpoints.VersionHeaders(resource));
        }

        KeyValuePair<string, string>[] headers = [.. ReadEndpoints.VersionHeaders(resource), new("Location", $"{baseUrl}/{resource.VersionUrl}")];
        return Preference.Of(request).Return switch
        {
            ReturnPreference.Minimal => new((string?)null, status, headers),
            ReturnPreference.OperationOutcome => new(Preference.Done(status), status, headers),
            _ => new(resource.Json, status, headers),
        };
    }

    private async Task<ReceivedResource> BodyAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        ResourceTypes.Demand(type);
        var received = await FhirBody.ReadAsync(request, options.MaxBodyBytes, cancellation);
        return received.Resource.TypeName == type
            ? received
            : throw RecordRefusal.BadRequest($"The body is a {received.Resource.TypeName}, the URL asks for a {type}.");
    }

    private static string? IfNoneMatch(HttpRequest request) => request.Headers.IfNoneMatch is [{ } tag, ..] ? tag : null;

    private static string? IfMatch(HttpRequest request) => request.Headers.IfMatch is [{ } tag, ..] ? tag : null;
}
