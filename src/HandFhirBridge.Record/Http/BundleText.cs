using System.Text.Json;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Http;

/// <summary>Writes Bundles from stored resources without parsing them, so that every digit stays as it was stored.</summary>
/// <param name="baseUrl">FHIR base, without a slash at its end.</param>
internal sealed class BundleText(string baseUrl)
{
    public string SearchSet(SearchQuery query, SearchPage page) => Write(json =>
    {
        json.WriteString("type", "searchset");
        json.WriteNumber("total", page.Total);
        json.WriteStartArray("link");
        Link(json, "self", Url(query, query.Offset));
        if (query.Count > 0 && query.Offset + query.Count < page.Total)
        {
            Link(json, "next", Url(query, query.Offset + query.Count));
        }

        if (query.Count > 0 && query.Offset > 0)
        {
            Link(json, "previous", Url(query, Math.Max(0, query.Offset - query.Count)));
        }

        json.WriteEndArray();
        Entries(json, page.Matches.Select(m => (m, "match")).Concat(page.Included.Select(i => (i, "include"))));
    });

    public string History(IReadOnlyList<StoredResource> versions) => Write(json =>
    {
        json.WriteString("type", "history");
        json.WriteNumber("total", versions.Count);
        json.WriteStartArray("entry");
        foreach (var version in versions)
        {
            json.WriteStartObject();
            json.WriteString("fullUrl", $"{baseUrl}/{version.Reference}");
            Resource(json, version);
            json.WriteStartObject("request");
            json.WriteString("method", version.Deleted ? "DELETE" : "PUT");
            json.WriteString("url", version.Reference);
            json.WriteEndObject();
            json.WriteStartObject("response");
            json.WriteString("status", version.Deleted ? "204" : version.Version == 1 ? "201" : "200");
            json.WriteString("etag", version.ETag);
            json.WriteString("lastModified", version.Updated);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    });

    private void Entries(Utf8JsonWriter json, IEnumerable<(StoredResource Resource, string Mode)> entries)
    {
        var list = entries.ToList();
        if (list.Count == 0)
        {
            return; // FHIR has no empty arrays.
        }

        json.WriteStartArray("entry");
        foreach (var (resource, mode) in list)
        {
            json.WriteStartObject();
            json.WriteString("fullUrl", $"{baseUrl}/{resource.Reference}");
            Resource(json, resource);
            json.WriteStartObject("search");
            json.WriteString("mode", mode);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Resource(Utf8JsonWriter json, StoredResource resource)
    {
        if (resource.Json is { } text)
        {
            json.WritePropertyName("resource");
            json.WriteRawValue(text, skipInputValidation: true);
        }
    }

    private static void Link(Utf8JsonWriter json, string relation, string url)
    {
        json.WriteStartObject();
        json.WriteString("relation", relation);
        json.WriteString("url", url);
        json.WriteEndObject();
    }

    private string Url(SearchQuery query, int offset)
    {
        var parameters = query.Used.Append(new("_count", $"{query.Count}"));
        return $"{baseUrl}/{query.Type}?{QueryText.Write(offset > 0 ? parameters.Append(new("_offset", $"{offset}")) : parameters)}";
    }

    private static string Write(Action<Utf8JsonWriter> members)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes))
        {
            json.WriteStartObject();
            json.WriteString("resourceType", "Bundle");
            members(json);
            json.WriteEndObject();
        }

        return System.Text.Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);
    }
}
