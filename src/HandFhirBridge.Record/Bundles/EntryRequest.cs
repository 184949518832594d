using System.Net;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>What an entry asks for: its verb and its URL, taken apart.</summary>
/// <param name="Verb">DELETE, POST, PUT or GET.</param>
/// <param name="Type">Resource type.</param>
/// <param name="Id">Logical id; null where the URL has none.</param>
/// <param name="Version">Version of a GET; null for the one that stands.</param>
/// <param name="Query">What follows the question mark; null where there is none.</param>
internal sealed record EntryRequest(Bundle.HTTPVerb Verb, string Type, string? Id, string? Version, string? Query)
{
    /// <exception cref="RecordRefusal">The request is none that this server carries out.</exception>
    public static EntryRequest Of(Bundle.EntryComponent entry, string path, string baseUrl)
    {
        var verb = entry.Request?.Method ?? throw RecordRefusal.BadRequest("The entry has no request.method.", $"{path}.request");
        var url = Search.ReferenceText.Relative(entry.Request.Url ?? "", baseUrl).TrimStart('/');
        var (place, query) = url.Split('?', 2) is [var p, var q] ? (p, q) : (url, null);
        var parts = place.Split('/');
        var request = new EntryRequest(verb, parts[0], parts.Length > 1 ? parts[1] : null, parts is [_, _, "_history", var v] ? v : null, query);
        var shaped = verb switch
        {
            Bundle.HTTPVerb.POST => parts.Length == 1 && query is null,
            Bundle.HTTPVerb.PUT => (parts.Length == 2 && query is null) || (parts.Length == 1 && query is not null),
            Bundle.HTTPVerb.DELETE => parts.Length == 2 && query is null,
            Bundle.HTTPVerb.GET => parts.Length is 1 or 2 || request.Version is not null,
            _ => throw new RecordRefusal(HttpStatusCode.BadRequest, OperationOutcome.IssueType.NotSupported, $"{verb} is not supported in a bundle.", $"{path}.request.method"),
        };
        if (!shaped || !ResourceTypes.Has(request.Type))
        {
            throw RecordRefusal.BadRequest($"{verb} {place} is not an interaction of this server. Write for example PUT Patient/id.", $"{path}.request.url");
        }

        var takesResource = verb is Bundle.HTTPVerb.POST or Bundle.HTTPVerb.PUT;
        if (takesResource && entry.Resource?.TypeName != request.Type)
        {
            throw RecordRefusal.BadRequest($"The url asks for a {request.Type}, the resource is {entry.Resource?.TypeName ?? "missing"}.", $"{path}.resource");
        }

        return request;
    }
}
