using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using HandFhirBridge.Record.Bundles;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Record.Http;

/// <summary>Writes Bundles around stored resources without parsing them, so that every character stays as it was stored.</summary>
/// <param name="baseUrl">FHIR base, without a slash at its end.</param>
internal sealed class BundleText(string baseUrl)
{
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <param name="query">What was asked, for the links.</param>
    /// <param name="page">What was found.</param>
    /// <param name="operation">What follows the type in the links, where an operation found it.</param>
    public string SearchSet(SearchQuery query, SearchPage page, string operation = "") => Write("searchset", json =>
    {
        if (page.Total is { } total)
        {
            json.WriteNumber("total", total);
        }

        Links(json, query.Type + operation, query.Used, query.After, page.Next);
        Entries(json, [.. page.Matches.Select(m => (m, "match")), .. page.Included.Select(i => (i, "include"))], (entry, mode) =>
        {
            json.WriteString("fullUrl", $"{baseUrl}/{entry.Reference}");
            Raw(json, "resource", query.Excerpt.Of(entry, isMatch: mode == "match"));
            json.WriteStartObject("search");
            json.WriteString("mode", mode);
            json.WriteEndObject();
        });
    });

    /// <param name="request">What was asked, for the links.</param>
    /// <param name="page">What was found.</param>
    public string History(HistoryRequest request, HistoryPage page) => Write("history", json =>
    {
        json.WriteNumber("total", page.Total);
        Links(json, request.Place, request.Used, request.After, page.Next);
        Entries(json, [.. page.Versions.Select(v => (v, ""))], (version, _) =>
        {
            json.WriteString("fullUrl", $"{baseUrl}/{version.Reference}");
            Raw(json, "resource", version.Json);
            json.WriteStartObject("request");
            json.WriteString("method", version.Deleted ? "DELETE" : "PUT");
            json.WriteString("url", version.Reference);
            json.WriteEndObject();
            Response(json, version.Deleted ? 204 : version.Version == 1 ? 201 : 200, version, null, withLocation: false);
        });
    });

    public static string Answers(string type, IReadOnlyList<EntryAnswer> answers) => Write(type, json =>
        Entries(json, [.. answers.Select(a => (a, ""))], (answer, _) =>
        {
            Raw(json, "resource", answer.Json);
            Response(json, answer.Status, answer.Version, answer.Outcome is { } outcome ? FhirJsonSerializer.Default.SerializeToString(outcome) : null, withLocation: true);
        }));

    private static void Entries<T>(Utf8JsonWriter json, IReadOnlyList<(T Entry, string Mode)> entries, Action<T, string> write)
    {
        if (entries.Count == 0)
        {
            return; // FHIR has no empty arrays.
        }

        json.WriteStartArray("entry");
        foreach (var (entry, mode) in entries)
        {
            json.WriteStartObject();
            write(entry, mode);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Response(Utf8JsonWriter json, int status, StoredResource? version, string? outcome, bool withLocation)
    {
        json.WriteStartObject("response");
        json.WriteString("status", string.Create(CultureInfo.InvariantCulture, $"{status} {Reason(status)}"));
        if (version is not null)
        {
            if (withLocation)
            {
                json.WriteString("location", version.VersionUrl);
            }

            json.WriteString("etag", version.ETag);
            json.WriteString("lastModified", version.Updated);
        }

        Raw(json, "outcome", outcome);
        json.WriteEndObject();
    }

    private static string Reason(int status) => status switch
    {
        200 => "OK",
        204 => "No Content",
        404 => "Not Found",
        412 => "Precondition Failed",
        400 => "Bad Request",
        _ => ((HttpStatusCode)status).ToString(),
    };

    private static void Raw(Utf8JsonWriter json, string name, string? text)
    {
        if (text is not null)
        {
            json.WritePropertyName(name);
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

    private void Links(Utf8JsonWriter json, string place, IReadOnlyList<KeyValuePair<string, string>> used, PageMark? after, PageMark? next)
    {
        json.WriteStartArray("link");
        Link(json, "self", Url(after));
        if (next is not null)
        {
            Link(json, "first", Url(null));
            Link(json, "next", Url(next));
        }

        json.WriteEndArray();

        string Url(PageMark? mark)
        {
            IEnumerable<KeyValuePair<string, string>> parameters = mark is null ? used : used.Append(new("_after", mark.ToString()));
            return $"{baseUrl}/{place}?{QueryText.Write(parameters)}".TrimEnd('?');
        }
    }

    private static string Write(string type, Action<Utf8JsonWriter> members)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Options))
        {
            json.WriteStartObject();
            json.WriteString("resourceType", "Bundle");
            json.WriteString("type", type);
            members(json);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);
    }
}
