using System.Globalization;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;

namespace HandFhirBridge.Record.Interactions;

/// <summary>What a history was asked for (R4 http.html#history).</summary>
/// <param name="Type">Resource type; null for the whole system.</param>
/// <param name="Id">Logical id; null for all of the type.</param>
/// <param name="Count">Versions a page; 0 asks for the total alone.</param>
/// <param name="Since">"Only include resource versions that were created at or after the given instant in time"; null for all.</param>
/// <param name="At">"Only include resource versions that were current at some point during the time period specified"; null for all.</param>
/// <param name="After">Where the page before ended; null for the first page.</param>
/// <param name="Used">The query as it was understood, for the links.</param>
internal sealed record HistoryRequest(
    string? Type, string? Id, int Count, DateSpan? Since, DateSpan? At, PageMark? After, IReadOnlyList<KeyValuePair<string, string>> Used)
{
    /// <summary>Sort values of a page mark beside the version: those of one resource are told apart by it alone.</summary>
    private int Keys => Id is null ? 3 : 0;

    /// <summary>Where the history stands, from the base.</summary>
    public string Place => string.Concat(new[] { Type, Id }.OfType<string>().Select(p => p + '/')) + "_history";

    /// <exception cref="RecordRefusal">400: a parameter is not known, or has a wrong value.</exception>
    public static HistoryRequest Of(string? type, string? id, IEnumerable<KeyValuePair<string, string>> query, bool lenient, RecordOptions options)
    {
        var request = new HistoryRequest(type, id, options.DefaultPageSize, null, null, null, []);
        var used = new List<KeyValuePair<string, string>>();
        foreach (var (name, value) in query)
        {
            switch (name)
            {
                case "_format" or "_pretty":
                    continue;
                case "_after":
                    request = request with { After = PageMark.Parse(value, request.Keys) };
                    continue;
                case "_count" when int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var count):
                    request = request with { Count = Math.Min(count, options.MaxPageSize) };
                    break;
                case "_count":
                    throw RecordRefusal.BadRequest($"_count is \"{value}\", which is not a whole number.");
                case "_since":
                    request = request with { Since = Date(name, value) };
                    break;
                case "_at":
                    request = request with { At = Date(name, value) };
                    break;
                case not null when lenient:
                    continue;
                default:
                    throw RecordRefusal.BadRequest($"A history does not know the parameter \"{name}\"; it takes _count, _since and _at. Prefer: handling=lenient leaves others out.");
            }

            used.Add(new(name, value));
        }

        return request with { Used = used };
    }

    private static DateSpan Date(string name, string value) => DateSpan.Parse(value)
        ?? throw RecordRefusal.BadRequest($"{name} is \"{value}\", which is not a date of FHIR, such as 2026-03-01T08:00:00Z.");
}
