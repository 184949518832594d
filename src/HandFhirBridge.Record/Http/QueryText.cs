using Microsoft.AspNetCore.WebUtilities;

namespace HandFhirBridge.Record.Http;

/// <summary>Query strings as name and value, repetitions kept in their order.</summary>
internal static class QueryText
{
    public static IEnumerable<KeyValuePair<string, string>> Parse(string query)
    {
        foreach (var pair in new QueryStringEnumerable(query))
        {
            yield return new(pair.DecodeName().ToString(), pair.DecodeValue().ToString());
        }
    }

    public static string Write(IEnumerable<KeyValuePair<string, string>> query) =>
        string.Join('&', query.Select(p => $"{Uri.EscapeDataString(p.Key)}={Uri.EscapeDataString(p.Value)}"));
}
