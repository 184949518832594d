using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Interactions;

/// <summary>
/// The search of a conditional interaction (R4 http.html#cond-update). Asked within the write transaction, so that nobody can make a match
/// between its test and the write.
/// </summary>
/// <param name="session">Holds the write lock.</param>
/// <param name="options">Page sizes, which a condition does not use.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class SingleMatch(RecordSession session, RecordOptions options, string baseUrl)
{
    /// <summary>The one match, or null; more than one is refused (412), and so is a condition that selects nothing in particular.</summary>
    public StoredResource? Of(string type, string condition)
    {
        var query = new SearchQueryParser(type, lenient: false, options).Parse(QueryText.Parse(condition));
        if (query.Criteria.Count == 0)
        {
            throw RecordRefusal.Precondition("The condition has no search parameter. Give one that identifies the resource, such as identifier=system|value.");
        }

        var matches = new Searcher(session, baseUrl).FindAtMostTwo(query);
        return matches.Count <= 1
            ? matches.SingleOrDefault()
            : throw RecordRefusal.Precondition($"More than one {type} matches the condition; nothing was written.");
    }
}
