using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations;

/// <summary><c>$lastn</c> of Observation: the latest of each code (R4 OperationDefinition/Observation-lastn).</summary>
/// <param name="session">Where it reads.</param>
/// <param name="options">Page sizes, which this operation does not use: the whole answer is one Bundle.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class LastObservations(RecordSession session, RecordOptions options, string baseUrl)
{
    // The operation settles order and number itself.
    private static readonly string[] Settled = ["_sort", "_count", "_after", "_total"];

    /// <summary>The searchset Bundle as JSON.</summary>
    public string Run(IEnumerable<KeyValuePair<string, string>> parameters, bool lenient)
    {
        var all = parameters.ToList();
        if (all.Find(p => Settled.Contains(p.Key)) is { Key: { } name })
        {
            throw RecordRefusal.BadRequest($"{name} cannot be used with $lastn, which sorts from most recent to oldest and takes max as the number of each code.");
        }

        var (max, query) = (Max(all), new SearchQueryParser("Observation", lenient, options).Parse(all.Where(p => p.Key != "max")));
        Demand(query);
        var date = SearchParameters.Of("Observation")["date"];
        var found = new Searcher(session, baseUrl).All(query with { Sort = [(date, true)] });
        var latest = Latest(found, max);
        var page = new SearchPage(latest.Count, latest, new Includes(session).Of(query.Includes, latest), null);
        return new BundleText(baseUrl).SearchSet(query with { Used = [.. query.Used, .. all.Where(p => p.Key == "max")] }, page, "/$lastn");
    }

    // "then only the most recent Observation in each group is returned" where no maximum is given.
    private static int Max(List<KeyValuePair<string, string>> parameters)
    {
        var given = parameters.Where(p => p.Key == "max").Select(p => p.Value).ToList();
        return given switch
        {
            [] => 1,
            [var text] when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var max) && max > 0 => max,
            _ => throw RecordRefusal.BadRequest($"max is \"{string.Join(", ", given)}\"; it takes one whole number from 1."),
        };
    }

    // "The request for a lastn query SHALL include ... A subject using either the patient or subject search parameter", and "A category
    // parameter and/or a search parameter that contains a code element in its FHIRpath expression".
    private static void Demand(SearchQuery query)
    {
        var parameters = query.Criteria.Where(c => c.Has is null).Select(c => c.Parameter).ToList();
        if (!parameters.Exists(p => p.Name is "patient" or "subject"))
        {
            throw RecordRefusal.BadRequest("$lastn needs a subject: give patient or subject.");
        }

        if (!parameters.Exists(p => p.Name == "category" || p.Expression.Contains(".code", StringComparison.Ordinal) || p.Components.Any(c => c.Expression == "code")))
        {
            throw RecordRefusal.BadRequest("$lastn needs category or a parameter of the code, such as code=system|code.");
        }
    }

    private static List<StoredResource> Latest(IReadOnlyList<(StoredResource Resource, object Key)> found, int max)
    {
        var groups = new CodeGroups();
        var named = new List<(StoredResource Resource, object Time, string Name)>();
        foreach (var (resource, time) in found)
        {
            using var json = JsonDocument.Parse(resource.Json!);
            named.Add((resource, time, groups.Add(json.RootElement)));
        }

        var counts = new Dictionary<string, (int Count, object Last)>();
        return [.. named.Where(n => IsTaken(counts, groups.Of(n.Name), n.Time, max)).Select(n => n.Resource)];
    }

    // "In case of a tie - when the effective times for >1 Observations are equal - both will be returned."
    private static bool IsTaken(Dictionary<string, (int Count, object Last)> counts, string group, object time, int max)
    {
        var (count, last) = counts.GetValueOrDefault(group);
        if (count >= max && !time.Equals(last))
        {
            return false;
        }

        counts[group] = (count + 1, time);
        return true;
    }
}
