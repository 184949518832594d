using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace HandFhirBridge.Service.Table;

/// <summary>Serves the page used at the bedside while the test is given.</summary>
public static class TableEndpoints
{
    // Nothing but the page's own files and its own service; no inline script or style.
    private const string ContentSecurityPolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; "
        + "worker-src 'self'; form-action 'none'; frame-ancestors 'none'; base-uri 'none'";

    /// <summary>
    /// Maps <c>/table</c> (redirects to <c>/table/</c>) and the files below it. The files hold no patient data and are served
    /// to anybody who reaches the service; what the page asks of the service is protected where it is served.
    /// </summary>
    /// <returns>The group, for conventions.</returns>
    public static IEndpointConventionBuilder MapTable(this IEndpointRouteBuilder endpoints)
    {
        ArgumentNullException.ThrowIfNull(endpoints);
        var group = endpoints.MapGroup("/table").AllowAnonymous().ExcludeFromDescription();
        group.MapGet("{**path}", Serve);
        return group;
    }

    private static Results<FileContentHttpResult, StatusCodeHttpResult, RedirectHttpResult, NotFound> Serve(HttpContext context, string? path)
    {
        if (path is null && context.Request.Path.Value is { } whole && !whole.EndsWith('/'))
        {
            // Relative, so that it holds behind a path prefix.
            return TypedResults.Redirect($"{whole[(whole.LastIndexOf('/') + 1)..]}/{context.Request.QueryString}", permanent: false, preserveMethod: true);
        }

        if (TableAssets.Embedded.Find(path ?? "") is not { } asset)
        {
            return TypedResults.NotFound();
        }

        WriteHeaders(context.Response.Headers);
        var (body, encoding) = asset.For(context.Request.Headers.AcceptEncoding.ToString());
        if (encoding is not null)
        {
            context.Response.Headers.ContentEncoding = encoding;
        }

        return TypedResults.File(body, asset.ContentType, entityTag: new EntityTagHeaderValue($"\"{asset.Tag}{encoding}\""));
    }

    private static void WriteHeaders(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = ContentSecurityPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers.CacheControl = "no-cache";
        headers.Vary = "Accept-Encoding";
    }
}
