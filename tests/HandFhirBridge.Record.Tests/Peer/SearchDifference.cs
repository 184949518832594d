using System.Text.Json;

namespace HandFhirBridge.Record.Tests.Peer;

/// <summary>A row of <c>differences.json</c>: where the two servers answer differently, and which of them the specification supports.</summary>
/// <param name="Query">The search.</param>
/// <param name="Record">What this record answers: a status, a number, or how many it finds and what it alone finds.</param>
/// <param name="Peer">The same of the other server.</param>
/// <param name="Supported">record, peer, or both where the specification leaves it open.</param>
/// <param name="Added">True where the other server's answer comes from what tests/peers adds to it.</param>
/// <param name="Sentence">What R4 says, with its page.</param>
internal sealed record SearchDifference(string Query, string Record, string Peer, string Supported, bool Added, string Sentence)
{
    // More ids than these are counted only.
    private const int Named = 3;

    private static readonly JsonSerializerOptions Options = new() { PropertyNameCaseInsensitive = true };

    /// <summary>Query and answers, as the test finds them.</summary>
    public string Description => $"{Query} record: {Record}; peer: {Peer}";

    public static IReadOnlyList<SearchDifference> Read(string path) => JsonSerializer.Deserialize<SearchDifference[]>(File.ReadAllText(path), Options)!;

    /// <summary>The rows as a table of a page.</summary>
    public static string Table(IEnumerable<SearchDifference> rows) => string.Concat(rows.Select(r =>
        $"| `{r.Query.Replace("|", "\\|", StringComparison.Ordinal)}` | {r.Record} | {r.Peer}{(r.Added ? " (added)" : "")} | {r.Supported} | {r.Sentence} |\n"));

    public static string Describe(string query, string ours, string theirs) => $"{query} record: {One(ours, theirs)}; peer: {One(theirs, ours)}";

    private static string One(string answer, string other)
    {
        if (!answer.Contains('/', StringComparison.Ordinal))
        {
            return answer.Length == 0 ? "nothing" : answer;
        }

        var ids = answer.Split(' ');
        string[] alone = [.. ids.Except(other.Split(' '))];
        return alone.Length is > 0 and <= Named ? $"{ids.Length}, {string.Join(' ', alone)} alone" : alone.Length == 0 ? $"{ids.Length}" : $"{ids.Length}, {alone.Length} alone";
    }
}
