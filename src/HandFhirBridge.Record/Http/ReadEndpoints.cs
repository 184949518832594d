using System.Globalization;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>Interactions that read.</summary>
/// <param name="database">Where resources lie.</param>
/// <param name="options">Limits.</param>
/// <param name="basePath">Path of the FHIR base.</param>
internal sealed class ReadEndpoints(RecordDatabase database, RecordOptions options, string basePath)
{
    public IResult Read(HttpRequest request, string type, string id)
    {
        ResourceTypes.Demand(type);
        using var session = database.Read();
        return Stored(request, new ReadInteraction(session).Current(type, id), type);
    }

    public IResult ReadVersion(HttpRequest request, string type, string id, string version)
    {
        ResourceTypes.Demand(type);
        using var session = database.Read();
        return Stored(request, new ReadInteraction(session).Version(type, id, version), type);
    }

    public IResult SystemHistory(HttpRequest request) => History(request, null, null);

    public IResult TypeHistory(HttpRequest request, string type) => History(request, ResourceTypes.Demand(type), null);

    public IResult InstanceHistory(HttpRequest request, string type, string id) => History(request, ResourceTypes.Demand(type), id);

    public IResult Search(HttpRequest request, string type) => Searched(request, type, QueryText.Parse(request.QueryString.Value ?? ""));

    public async Task<IResult> SearchByPostAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        MediaTypes.DemandForm(request);
        var form = await request.ReadFormAsync(cancellation);
        MediaTypes.DemandAcceptable(request);
        var pairs = form.SelectMany(f => f.Value.OfType<string>().Select(v => new KeyValuePair<string, string>(f.Key, v)));
        return Searched(request, type, QueryText.Parse(request.QueryString.Value ?? "").Concat(pairs));
    }

    /// <summary>Headers that name the version.</summary>
    public static KeyValuePair<string, string>[] VersionHeaders(StoredResource stored) =>
    [
        new("ETag", stored.ETag),
        new("Last-Modified", stored.LastModified.ToString("R", CultureInfo.InvariantCulture)),
    ];

    private FhirResult History(HttpRequest request, string? type, string? id)
    {
        var asked = HistoryRequest.Of(type, id, QueryText.Parse(request.QueryString.Value ?? ""), Preference.Of(request).Lenient, options);
        using var session = database.Read();
        return new(new BundleText(RecordRoutes.BaseOf(request, basePath)).History(asked, new HistoryInteraction(session).Run(asked)), StatusCodes.Status200OK);
    }

    private FhirResult Searched(HttpRequest request, string type, IEnumerable<KeyValuePair<string, string>> parameters)
    {
        ResourceTypes.Demand(type);
        using var session = database.Read();
        var search = new SearchInteraction(session, options, RecordRoutes.BaseOf(request, basePath));
        return new(search.Run(type, parameters, Preference.Of(request).Lenient), StatusCodes.Status200OK);
    }

    // R4 http.html#cread; RFC 9110, 13.1.3: the date counts only where no ETag was sent, and in whole seconds.
    private static bool IsKnown(HttpRequest request, StoredResource stored) => request.Headers.IfNoneMatch.Count > 0
        ? request.Headers.IfNoneMatch.Any(tag => tag is not null && VersionMatch.Same(tag, stored))
        : request.GetTypedHeaders().IfModifiedSince is { } since && stored.LastModified < since.AddSeconds(1);

    private static FhirResult Stored(HttpRequest request, StoredResource stored, string type) =>
        IsKnown(request, stored)
            ? new((string?)null, StatusCodes.Status304NotModified, VersionHeaders(stored))
            : new(Excerpt.OfRead(type, QueryText.Parse(request.QueryString.Value ?? "")).Of(stored, isMatch: true), StatusCodes.Status200OK, VersionHeaders(stored));
}
