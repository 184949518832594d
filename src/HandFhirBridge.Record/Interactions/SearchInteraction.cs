using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Interactions;

/// <summary>Search of a type (R4 http.html#search).</summary>
/// <param name="session">Where it reads.</param>
/// <param name="options">Page sizes.</param>
/// <param name="baseUrl">This server's base, for the links.</param>
internal sealed class SearchInteraction(RecordSession session, RecordOptions options, string baseUrl)
{
    /// <summary>The searchset Bundle as JSON.</summary>
    /// <param name="type">Resource type.</param>
    /// <param name="parameters">Query, decoded.</param>
    /// <param name="lenient">Leaves out parameters that are not known.</param>
    public string Run(string type, IEnumerable<KeyValuePair<string, string>> parameters, bool lenient)
    {
        var query = new SearchQueryParser(type, lenient, options).Parse(parameters);
        return new BundleText(baseUrl).SearchSet(query, new Searcher(session, baseUrl).Find(query));
    }
}
