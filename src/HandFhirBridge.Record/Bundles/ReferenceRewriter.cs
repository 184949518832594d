using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>Replaces references to entries of the same transaction, and conditional references, by literal ones.</summary>
/// <param name="places">Where each entry's fullUrl will stand, as Type/id.</param>
/// <param name="writes">Finds the targets of conditional references.</param>
internal sealed class ReferenceRewriter(IReadOnlyDictionary<string, string> places, Writes writes)
{
    /// <summary>Rewrites every reference, uri and url within <paramref name="resource"/>.</summary>
    public void Rewrite(Resource resource, string path)
    {
        foreach (var element in Elements(resource))
        {
            switch (element)
            {
                case ResourceReference { Reference: { } written } reference:
                    reference.Reference = Literal(written, path);
                    break;
                case FhirUri { Value: { } uri } when places.TryGetValue(uri, out var place):
                    ((FhirUri)element).Value = place;
                    break;
            }
        }
    }

    private string Literal(string reference, string path)
    {
        if (places.TryGetValue(reference, out var place))
        {
            return place;
        }

        if (reference.StartsWith("urn:", StringComparison.Ordinal))
        {
            throw RecordRefusal.BadRequest($"{reference} is referred to, but no entry has it as fullUrl.", path);
        }

        var (type, condition) = reference.Split('?', 2) is [var t, var c] ? (t, c) : (reference, null);
        return condition is null || !ModelInfo.IsKnownResource(type)
            ? reference
            : writes.Match(type, condition)?.Reference
                ?? throw RecordRefusal.Precondition($"The conditional reference {type}?… in {path} matches nothing.");
    }

    private static IEnumerable<Base> Elements(Base parent)
    {
        foreach (var (_, value) in parent.EnumerateElements())
        {
            foreach (var child in value is IEnumerable<Base> list ? list : value is Base single ? [single] : [])
            {
                yield return child;
                foreach (var deeper in Elements(child))
                {
                    yield return deeper;
                }
            }
        }
    }
}
