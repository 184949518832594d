using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Record.Tests.Peer;

/// <summary>One search of <c>queries.txt</c>, and what a server answers to it.</summary>
/// <param name="Compared">ids, order, total, size, or post (a search by POST whose ids are compared).</param>
/// <param name="Query">Type and query string; of a post the type, a space, and the form.</param>
/// <param name="IsAdded">True where the other server's answer comes from what the tests add to it.</param>
internal sealed record SearchAnswer(string Compared, string Query, bool IsAdded)
{
    public static SearchAnswer Parse(string line)
    {
        var isAdded = line.EndsWith(" added", StringComparison.Ordinal);
        var parts = (isAdded ? line[..^6] : line).Split(' ', 2);
        return new(parts[0], parts[1], isAdded);
    }

    /// <summary>The status where it is refused, else what is compared: ids, or a number.</summary>
    public async Task<string> AskAsync(HttpClient server, CancellationToken cancellation)
    {
        using var request = Request();
        using var answer = await server.SendAsync(request, cancellation);
        if (!answer.IsSuccessStatusCode)
        {
            return ((int)answer.StatusCode).ToString(CultureInfo.InvariantCulture);
        }

        var bundle = JsonNode.Parse(await answer.Content.ReadAsStringAsync(cancellation))!;
        var places = (bundle["entry"]?.AsArray() ?? []).Select(e => $"{e!["resource"]!["resourceType"]}/{e["resource"]!["id"]}").ToList();
        return Compared switch
        {
            "total" => $"total {bundle["total"]}",
            "size" => $"{places.Count} entries",
            "order" => string.Join(' ', places),
            _ => string.Join(' ', places.Order(StringComparer.Ordinal)),
        };
    }

    private HttpRequestMessage Request()
    {
        if (Compared == "post")
        {
            var (type, form) = (Query.Split(' ')[0], Query.Split(' ')[1]);
            return new(HttpMethod.Post, $"{type}/_search") { Content = new StringContent(Escape(form) + "&_count=1000", Encoding.UTF8, "application/x-www-form-urlencoded") };
        }

        var parts = Query.Split('?', 2);
        var count = parts[1].Contains("_count=", StringComparison.Ordinal) || parts[1].Contains("_summary=", StringComparison.Ordinal) ? "" : "&_count=1000";
        return new(HttpMethod.Get, $"{parts[0]}?{Escape(parts[1])}{count}");
    }

    private static string Escape(string query) => string.Join('&', query.Split('&').Select(p => p.Split('=', 2)).Select(p => $"{p[0]}={Uri.EscapeDataString(p[1])}"));
}
