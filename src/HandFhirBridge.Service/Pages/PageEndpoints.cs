using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace HandFhirBridge.Service.Pages;

/// <summary>Serves the pages.</summary>
public static class PageEndpoints
{
    // Nothing but the pages' own files and its own service; no inline script or style. A picture made in the page (blob) is saved from it.
    private const string ContentSecurityPolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; manifest-src 'self'; "
        + "worker-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

    /// <summary>
    /// Maps <c>/table</c>, <c>/ledger</c> and <c>/chart</c> (each redirects to itself with a slash) and the files below them. The files hold no patient data and are served
    /// to anybody who reaches the service; what a page asks of the service is protected where it is served.
    /// </summary>
    public static void MapPages(this IEndpointRouteBuilder endpoints)
    {
        Map(endpoints, "/table", PageAssets.Table);
        Map(endpoints, "/ledger", PageAssets.Ledger);
        Map(endpoints, "/chart", PageAssets.Chart);
    }

    private static void Map(IEndpointRouteBuilder endpoints, string page, PageAssets assets) => endpoints
        .MapGroup(page).AllowAnonymous().ExcludeFromDescription()
        .MapGet("{**path}", (HttpContext context, string? path) => Serve(context, path, assets));

    private static Results<FileContentHttpResult, StatusCodeHttpResult, RedirectHttpResult, NotFound> Serve(HttpContext context, string? path, PageAssets assets)
    {
        if (path is null && context.Request.Path.Value is { } whole && !whole.EndsWith('/'))
        {
            // Relative, so that it holds behind a path prefix.
            return TypedResults.Redirect($"{whole[(whole.LastIndexOf('/') + 1)..]}/{context.Request.QueryString}", permanent: false, preserveMethod: true);
        }

        if (assets.Find(path ?? "") is not { } asset)
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

    /// <summary>What a page with data of the clinic is served with: it stays in no cache, the browser's included.</summary>
    internal static void WritePrivateHeaders(IHeaderDictionary headers)
    {
        WriteHeaders(headers);
        headers.CacheControl = "no-store";
    }

    /// <summary>What every page is served with.</summary>
    internal static void WriteHeaders(IHeaderDictionary headers)
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
