using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;

namespace HandFhirBridge.Record;

/// <summary>Metadata of each endpoint of the record, for those who decide who may call it and keep an account of it.</summary>
/// <param name="Actions">What a call may do.</param>
/// <param name="Interaction">As FHIR names it (R4 value set restful-interaction).</param>
public sealed record RecordEndpoint(RecordActions Actions, string Interaction)
{
    // From the address and the method, so that no endpoint can be forgotten: what is not known may read and write.
    internal static void Mark(EndpointBuilder endpoint, string basePath)
    {
        var pattern = ((RouteEndpointBuilder)endpoint).RoutePattern.RawText ?? "";
        var path = pattern[(pattern.IndexOf(basePath, StringComparison.Ordinal) + basePath.Length)..].Split('/', StringSplitOptions.RemoveEmptyEntries);
        endpoint.Metadata.Add(endpoint.Metadata.OfType<HttpMethodMetadata>().LastOrDefault()?.HttpMethods is [var method] ? Of(path, method) : Of(path, ""));
    }

    private static RecordEndpoint Of(string[] path, string method) => (path, method) switch
    {
        (["metadata"], _) => new(RecordActions.None, "capabilities"),
        ([.., "$export"], _) or (["$export-status", ..], _) => new(RecordActions.Export, "operation"),
        ([.., ['$', ..]], _) => new(RecordActions.Read, "operation"),
        ([.., "_search"], _) => new(RecordActions.Read, "search-type"),
        ([.., "_history"], "GET") => new(RecordActions.Read, path.Length switch { 1 => "history-system", 2 => "history-type", _ => "history-instance" }),
        ([.., "_history", _], "GET") => new(RecordActions.Read, "vread"),
        (["{type}", "{id}"], "GET") => new(RecordActions.Read, "read"),
        (_, "GET") => new(RecordActions.Read, "search-type"),
        (["{type}", "{id}"], "PUT") => new(RecordActions.Write, "update"),
        (["{type}", "{id}"], "DELETE") => new(RecordActions.Write, "delete"),
        (["{type}"], "POST") => new(RecordActions.Write, "create"),
        // A condition tells whether something is there.
        (["{type}"], "PUT") => new(RecordActions.Read | RecordActions.Write, "update"),
        ([], "POST") => new(RecordActions.Read | RecordActions.Write, "transaction"),
        _ => new(RecordActions.Read | RecordActions.Write, "operation"),
    };
}
