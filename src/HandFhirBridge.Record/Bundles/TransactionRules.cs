using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>What a transaction may not hold (R4 http.html#trules).</summary>
internal static class TransactionRules
{
    /// <summary>Refuses two entries with one fullUrl, and two conditional creates with one condition: they would make what they are meant to prevent.</summary>
    public static void DemandDistinctEntries(IReadOnlyList<EntryPlan> plans)
    {
        Demand(plans, p => p.Entry.FullUrl, (p, key) => $"Bundle.entry[{p.Index}] has the fullUrl {key}, as an entry before it does.", "fullUrl");
        Demand(
            plans,
            p => p.Entry.Request!.IfNoneExist is { } condition ? $"{p.Request.Type}?{condition}" : null,
            (p, _) => $"Bundle.entry[{p.Index}] creates a {p.Request.Type} on the same condition as an entry before it.",
            "request.ifNoneExist");
    }

    /// <summary>Refuses two entries that change the same resource, also where a condition leads to it.</summary>
    public static void DemandDistinctPlaces(IReadOnlyList<EntryPlan> plans)
    {
        var changed = plans.Where(p => p.Place is not null && !p.Stands).ToList();
        Demand(changed, p => p.Place, (p, key) => $"Bundle.entry[{p.Index}] changes {key}, as an entry before it does.", "request");
        var deleted = changed.Where(p => p.Request.Verb == Bundle.HTTPVerb.DELETE).Select(p => p.Place).ToHashSet();
        if (plans.FirstOrDefault(p => p.Stands && deleted.Contains(p.Place)) is { } clash)
        {
            throw RecordRefusal.BadRequest($"{clash.Path} relies on {clash.Place}, which another entry deletes.", $"{clash.Path}.request");
        }
    }

    private static void Demand(IReadOnlyList<EntryPlan> plans, Func<EntryPlan, string?> key, Func<EntryPlan, string, string> message, string element)
    {
        var seen = new HashSet<string>();
        foreach (var plan in plans)
        {
            if (key(plan) is { } value && !seen.Add(value))
            {
                throw RecordRefusal.BadRequest(message(plan, value), $"{plan.Path}.{element}");
            }
        }
    }
}
