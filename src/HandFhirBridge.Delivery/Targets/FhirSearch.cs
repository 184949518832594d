using System.Collections.Immutable;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Searches a target to the last page. What comes back is what the server says: whoever asks still compares it with what was asked.</summary>
public static partial class FhirSearch
{
    private const int MostPages = 20;

    /// <summary>Runs the search.</summary>
    /// <param name="target">Where.</param>
    /// <param name="query">Relative address with parameters.</param>
    /// <param name="cancellation">Ends the wait.</param>
    public static async Task<SearchResult> RunAsync(FhirTarget target, string query, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        var hits = new Dictionary<string, SearchHit>(StringComparer.Ordinal);
        Uri? next = new(target.Base, query);
        var whole = true;
        var total = 0;
        for (var page = 0; page < MostPages; page++)
        {
            var answer = await target.GetAsync(next.AbsoluteUri, cancellation);
            if (!answer.Succeeded || answer.ResourceType != "Bundle")
            {
                return new([.. hits.Values], answer, false);
            }

            whole &= Collect(answer.Resource, hits);
            total = Math.Max(total, answer.Resource.Number("total") ?? 0);
            var link = answer.Resource.Objects("link").FirstOrDefault(l => l.Text("relation") == "next").Text("url");
            if (link is null)
            {
                return new([.. hits.Values], null, whole && total <= hits.Values.Count(h => h.IsMatch));
            }

            if (Follow(target.Base, link) is not { } followed)
            {
                break;
            }

            next = followed;
        }

        return new([.. hits.Values], null, false);
    }

    /// <summary>The resources of a search answered by one page; null if it was not, or not to the end.</summary>
    /// <param name="page">Answer to the search.</param>
    public static ImmutableArray<SearchHit>? WholePage(JsonElement page)
    {
        var hits = new Dictionary<string, SearchHit>(StringComparer.Ordinal);
        return page.Text("resourceType") == "Bundle" && Collect(page, hits) && !page.Objects("link").Any(link => link.Text("relation") == "next")
            ? [.. hits.Values]
            : null;
    }

    /// <summary>A token parameter's value, <c>system|value</c>, with FHIR's own escapes (R4 search, "Escaping Search Parameters") and then percent signs.</summary>
    public static string Token(string system, string value) => Uri.EscapeDataString($"{Escape(system)}|{Escape(value)}");

    private static string Escape(string part) => Special().Replace(part, @"\$0");

    /// <returns>False if a resource came that cannot be addressed, and so not be told from the others.</returns>
    private static bool Collect(JsonElement bundle, Dictionary<string, SearchHit> hits)
    {
        var whole = true;
        foreach (var entry in bundle.Objects("entry"))
        {
            var resource = entry.Object("resource");
            if (entry.Object("search").Text("mode") == "outcome" || resource.Text("resourceType") == "OperationOutcome")
            {
                continue;
            }

            var isMatch = entry.Object("search").Text("mode") is null or "match";
            if (resource.Text("resourceType") is { } type && resource.Text("id") is { } id && LegalId().IsMatch(id))
            {
                hits.TryAdd($"{type}/{id}", new(type, id, resource, isMatch));
            }
            else
            {
                whole = false;
            }
        }

        return whole;
    }

    /// <summary>A page elsewhere than at the target is not asked for: the address holds the patient's identifier, and the request a token.</summary>
    private static Uri? Follow(Uri baseUrl, string link) =>
        Uri.TryCreate(baseUrl, link, out var url) && Uri.Compare(url, baseUrl, UriComponents.SchemeAndServer, UriFormat.Unescaped, StringComparison.OrdinalIgnoreCase) == 0
            ? url
            : null;

    [GeneratedRegex(@"[\\|,$]")]
    private static partial Regex Special();

    [GeneratedRegex(@"^[A-Za-z0-9\-.]{1,64}$")]
    private static partial Regex LegalId();
}
