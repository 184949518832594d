using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>Replaces references to entries of the same transaction, and conditional references, by literal ones (R4 http.html#trules).</summary>
/// <param name="places">Where each entry's fullUrl will stand, as Type/id.</param>
/// <param name="matching">Finds the targets of conditional references.</param>
internal sealed class ReferenceRewriter(IReadOnlyDictionary<string, string> places, SingleMatch matching)
{
    private readonly Dictionary<string, string> conditional = [];

    /// <summary>Rewrites every reference, uri, url and canonical within the resource, and the links of its narrative.</summary>
    public void Rewrite(EntryPlan plan)
    {
        Within(plan.Received!.Resource, plan);
    }

    private void Within(Base parent, EntryPlan plan)
    {
        foreach (var (_, value) in parent.EnumerateElements())
        {
            switch (value)
            {
                case Base single:
                    One(single, plan);
                    break;
                case IEnumerable<Base> list:
                    foreach (var element in list)
                    {
                        One(element, plan);
                    }

                    break;
            }
        }
    }

    private void One(Base element, EntryPlan plan)
    {
        switch (element)
        {
            case ResourceReference { Reference: { } written } reference:
                reference.Reference = Literal(written, plan);
                break;
            // FhirUri is the base of url, canonical, oid and uuid as well; an identifier's system is a name, not a link.
            case PrimitiveType { JsonValue: string uri } link when link is FhirUri or FhirUrl or Canonical or Oid or Uuid && places.TryGetValue(uri, out var place):
                link.JsonValue = place;
                break;
            case Narrative { Div: { } div } narrative:
                narrative.Div = Links(div);
                break;
        }

        // Most elements are plain values, which have nothing within.
        if (element is not PrimitiveType { Extension.Count: 0 })
        {
            Within(element, plan);
        }
    }

    private string Literal(string reference, EntryPlan plan)
    {
        if (places.TryGetValue(reference, out var place) || places.TryGetValue(Absolute(reference, plan.Entry.FullUrl), out place))
        {
            return place;
        }

        if (reference.StartsWith("urn:uuid:", StringComparison.Ordinal) || reference.StartsWith("urn:oid:", StringComparison.Ordinal))
        {
            throw RecordRefusal.BadRequest($"{reference} is referred to, but no entry of the transaction has it as fullUrl.", plan.Path);
        }

        return reference.Split('?', 2) is [var type, var condition] && ResourceTypes.Has(type) ? Conditional(type, condition, plan) : reference;
    }

    private string Conditional(string type, string condition, EntryPlan plan)
    {
        var written = $"{type}?{condition}";
        if (conditional.TryGetValue(written, out var known))
        {
            return known;
        }

        var match = matching.Of(type, condition)
            ?? throw RecordRefusal.Precondition($"A conditional reference to a {type} matches nothing; nothing was written.").At(plan.Path);
        return conditional[written] = match.Reference;
    }

    // R4 bundle.html#references: a relative reference is relative to the base of the entry it stands in.
    private static string Absolute(string reference, string? fullUrl)
    {
        var parts = fullUrl?.Split('/');
        return parts is { Length: > 3 } && ResourceTypes.Has(parts[^2]) && reference.Split('/') is [var type, _] && ResourceTypes.Has(type)
            ? $"{string.Join('/', parts[..^2])}/{reference}"
            : reference;
    }

    private string Links(string div) => places.Where(p => p.Key.StartsWith("urn:", StringComparison.Ordinal) && div.Contains(p.Key, StringComparison.Ordinal))
        .Aggregate(div, (text, p) => text
            .Replace($"href=\"{p.Key}\"", $"href=\"{p.Value}\"", StringComparison.Ordinal)
            .Replace($"src=\"{p.Key}\"", $"src=\"{p.Value}\"", StringComparison.Ordinal));
}
