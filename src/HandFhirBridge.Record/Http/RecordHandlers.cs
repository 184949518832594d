using System.Net;
using HandFhirBridge.Record.Bundles;
using HandFhirBridge.Record.Conformance;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>The HTTP interactions, one a method.</summary>
/// <param name="database">Where resources lie.</param>
/// <param name="options">Limits.</param>
/// <param name="clock">Gives the time.</param>
internal sealed class RecordHandlers(RecordDatabase database, RecordOptions options, TimeProvider clock)
{
    public IResult Metadata(HttpRequest request) =>
        new FhirResult(Capabilities.Statement(new Uri(BaseOf(request)), clock.GetUtcNow()));

    public IResult Read(HttpRequest request, string type, string id)
    {
        Known(type);
        using var session = Reader();
        var stored = session.Read(type, id) ?? throw RecordRefusal.NotFound($"There is no {type} with the id {id}.");
        return Stored(request, stored);
    }

    public IResult ReadVersion(HttpRequest request, string type, string id, long version)
    {
        Known(type);
        using var session = Reader();
        var stored = session.ReadVersion(type, id, version) ?? throw RecordRefusal.NotFound($"There is no version {version} of {type}/{id}.");
        return Stored(request, stored);
    }

    public IResult History(HttpRequest request, string type, string id)
    {
        Known(type);
        using var session = Reader();
        var versions = session.History(type, id);
        return versions.Count > 0
            ? new FhirResult(new BundleText(BaseOf(request)).History(versions), StatusCodes.Status200OK)
            : throw RecordRefusal.NotFound($"There is no {type} with the id {id}.");
    }

    public IResult Search(HttpRequest request, string type)
    {
        using var session = Reader();
        return Searched(request, session, type, QueryText.Parse(request.QueryString.Value ?? ""));
    }

    public async Task<IResult> SearchByPostAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        var form = await request.ReadFormAsync(cancellation);
        var pairs = form.SelectMany(f => f.Value.OfType<string>().Select(v => new KeyValuePair<string, string>(f.Key, v)));
        using var session = Reader();
        return Searched(request, session, type, QueryText.Parse(request.QueryString.Value ?? "").Concat(pairs));
    }

    public async Task<IResult> CreateAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        var resource = await BodyAsync(request, type, cancellation);
        string? condition = request.Headers["If-None-Exist"];
        return Write(request, writes => writes.Create(resource, condition));
    }

    public async Task<IResult> UpdateAsync(HttpRequest request, string type, string id, CancellationToken cancellation)
    {
        var resource = await BodyAsync(request, type, cancellation);
        return Write(request, writes => writes.Update(resource, id, IfMatch(request)));
    }

    public async Task<IResult> ConditionalUpdateAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        var resource = await BodyAsync(request, type, cancellation);
        return Write(request, writes => writes.ConditionalUpdate(resource, request.QueryString.Value ?? "", IfMatch(request)));
    }

    public IResult Delete(HttpRequest request, string type, string id)
    {
        Known(type);
        return Write(request, writes => writes.Delete(type, id, IfMatch(request)));
    }

    public async Task<IResult> BundleAsync(HttpRequest request, CancellationToken cancellation)
    {
        var bundle = await FhirBody.ReadAsync(request, options.MaxBodyBytes, cancellation) as Bundle
            ?? throw RecordRefusal.BadRequest("Only a Bundle can be posted to the base. Post other resources to their type.", "Resource");
        var processor = new BundleProcessor(Writer, (session, url) => Answer(request, session, url));
        return new FhirResult(processor.Process(bundle));
    }

    private static Resource Answer(HttpRequest request, RecordSession session, string url)
    {
        var (path, query) = url.Split('?', 2) is [var p, var q] ? (p, q) : (url, "");
        if (path.Split('/') is [var type, var id])
        {
            var stored = session.Read(type, id);
            return stored?.Json is { } json ? FhirBody.Parse(json) : throw RecordRefusal.NotFound($"There is no {url}.");
        }

        return FhirBody.Parse(SearchText(request, session, path, QueryText.Parse(query)));
    }

    private static FhirResult Searched(HttpRequest request, RecordSession session, string type, IEnumerable<KeyValuePair<string, string>> query) =>
        new FhirResult(SearchText(request, session, type, query), StatusCodes.Status200OK);

    private static string SearchText(HttpRequest request, RecordSession session, string type, IEnumerable<KeyValuePair<string, string>> pairs)
    {
        Known(type);
        var lenient = request.Headers["Prefer"].Any(p => p?.Contains("handling=lenient", StringComparison.Ordinal) == true);
        var query = new SearchQueryParser(type, lenient).Parse(pairs);
        return new BundleText(BaseOf(request)).SearchSet(query, new Searcher(session).Find(query));
    }

    private FhirResult Write(HttpRequest request, Func<Writes, Written?> write)
    {
        using var session = Writer();
        var written = write(new Writes(session));
        session.Commit();
        if (written is null || written.Status == StatusCodes.Status204NoContent)
        {
            return new((string?)null, StatusCodes.Status204NoContent);
        }

        var prefer = request.Headers["Prefer"].ToString();
        var body = prefer.Contains("return=minimal", StringComparison.Ordinal) ? null : written.Resource.Json;
        var location = new KeyValuePair<string, string>("Location", $"{BaseOf(request)}/{written.Resource.Reference}/_history/{written.Resource.Version}");
        return new(body, written.Status, [.. VersionHeaders(written.Resource), location]);
    }

    private static FhirResult Stored(HttpRequest request, StoredResource stored)
    {
        if (stored.Deleted)
        {
            throw new RecordRefusal(HttpStatusCode.Gone, OperationOutcome.IssueType.Deleted, $"{stored.Reference} was deleted.");
        }

        return request.Headers.IfNoneMatch.Contains(stored.ETag)
            ? new(null, StatusCodes.Status304NotModified, VersionHeaders(stored))
            : new(stored.Json, StatusCodes.Status200OK, VersionHeaders(stored));
    }

    private static KeyValuePair<string, string>[] VersionHeaders(StoredResource stored) =>
    [
        new("ETag", stored.ETag),
        new("Last-Modified", DateTimeOffset.Parse(stored.Updated, System.Globalization.CultureInfo.InvariantCulture).ToString("R")),
    ];

    private async Task<Resource> BodyAsync(HttpRequest request, string type, CancellationToken cancellation)
    {
        Known(type);
        var resource = await FhirBody.ReadAsync(request, options.MaxBodyBytes, cancellation);
        return resource.TypeName == type
            ? resource
            : throw RecordRefusal.BadRequest($"The body is a {resource.TypeName}, the URL asks for a {type}.", "Resource");
    }

    private static void Known(string type)
    {
        if (!ModelInfo.IsKnownResource(type))
        {
            throw RecordRefusal.NotFound($"There is no resource type {type} in FHIR R4.");
        }
    }

    private static string? IfMatch(HttpRequest request) => request.Headers.IfMatch is [{ } tag, ..] ? tag : null;

    private static string BaseOf(HttpRequest request)
    {
        var path = request.Path.Value ?? "";
        var prefix = path.IndexOf('/', 1) is var slash and > 0 ? path[..slash] : path;
        return $"{request.Scheme}://{request.Host}{request.PathBase}{prefix}";
    }

    private RecordSession Reader() => new(database, clock, write: false);

    private RecordSession Writer() => new(database, clock, write: true);
}
