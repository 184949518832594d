using System.Globalization;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Takes from a resource what its search parameters are about (R4 search.html, the section of each parameter type).</summary>
internal static class IndexValues
{
    public static IEnumerable<IndexRow> Of(Resource resource)
    {
        var plan = IndexPlan.Of(resource.TypeName);
        var elements = Elements(resource);
        var all = plan.Paths.Where(p => p.Path.Concerns(elements)).SelectMany(p => Rows(p, resource)).ToList();
        var group = 0;
        foreach (var element in plan.Elements.Where(e => e.Path.Concerns(elements)))
        {
            foreach (var found in element.Path.Find(resource))
            {
                group++;
                all.AddRange(Parts(element, found).Select(row => row with { Group = group }));
            }
        }

        return all;
    }

    // What the composites look for in one element; of a composite that has not all its parts there, nothing.
    private static IEnumerable<IndexRow> Parts(IndexPlan.Element plan, Base element)
    {
        var elements = Elements(element);
        var found = new Dictionary<long, List<IndexRow>>();
        var wanted = new HashSet<long>();
        foreach (var composite in plan.Composites)
        {
            if (composite.All(part => part.Sum(path => At(path).Count) > 0))
            {
                wanted.UnionWith(composite.SelectMany(part => part).Select(path => path.Key));
            }
        }

        return wanted.SelectMany(key => found[key]);

        List<IndexRow> At(IndexPath path) =>
            found.TryGetValue(path.Key, out var known) ? known : found[path.Key] = path.Path.Concerns(elements) ? [.. Rows(path, element)] : [];
    }

    private static HashSet<string> Elements(Base element) => [.. element.EnumerateElements().Select(e => e.Key)];

    private static IEnumerable<IndexRow> Rows(IndexPath path, Base from) => path.Path.Find(from).SelectMany(value => path.Type switch
    {
        SearchParamType.Token => Tokens(path.Key, value),
        SearchParamType.Reference => References(path.Key, value),
        SearchParamType.Date => Spans(path.Key, value),
        SearchParamType.String => Texts(path.Key, value),
        SearchParamType.Uri => Uris(path.Key, value),
        SearchParamType.Number or SearchParamType.Quantity => Amounts(path.Key, value),
        _ => [],
    });

    private static IEnumerable<IndexRow> Tokens(long key, Base value) => value switch
    {
        CodeableConcept concept => concept.Coding.SelectMany(c => Tokens(key, c)),
        Coding { Code: { } code } coding => [IndexRow.Token(key, coding.System, code)],
        Identifier { Value: { } id } identifier => [IndexRow.Token(key, identifier.System, id)],
        ContactPoint { Value: { } number } => [IndexRow.Token(key, null, number)],
        // Also what an expression makes, such as that of Patient?deceased, which is no FhirBoolean.
        PrimitiveType { JsonValue: bool flag } => [IndexRow.Token(key, null, flag ? "true" : "false")],
        PrimitiveType { JsonValue: { } code } => [IndexRow.Token(key, null, code.ToString()!)],
        _ => [],
    };

    private static IEnumerable<IndexRow> References(long key, Base value) => value switch
    {
        ResourceReference reference when reference.Reference is not null || reference.Identifier?.Value is not null =>
            [IndexRow.Reference(key, ReferenceText.Unversioned(reference.Reference ?? ""), reference.Identifier?.System, reference.Identifier?.Value)],
        // A canonical is found with and without its version (R4 search.html#versions).
        PrimitiveType { JsonValue: string uri } => uri.Split('|') is [var bare, _]
            ? [IndexRow.Reference(key, uri, null, null), IndexRow.Reference(key, bare, null, null)]
            : [IndexRow.Reference(key, uri, null, null)],
        _ => [],
    };

    private static IEnumerable<IndexRow> Spans(long key, Base value)
    {
        switch (value)
        {
            case Period period:
                // R4 search.html#date: a missing start or end reaches as far as time does.
                var low = period.Start is null ? long.MinValue : DateSpan.Parse(period.Start)?.Low;
                var high = period.End is null ? long.MaxValue : DateSpan.Parse(period.End)?.High;
                return low is { } l && high is { } h ? [IndexRow.Span(key, l, h)] : [];
            case Timing timing:
                return timing.EventElement.SelectMany(e => Spans(key, e));
            case Instant { Value: { } moment }:
                return [IndexRow.Span(key, moment.UtcTicks, moment.UtcTicks)];
            case PrimitiveType { JsonValue: string text } when DateSpan.Parse(text) is { } span:
                return [IndexRow.Span(key, span.Low, span.High)];
            default:
                return [];
        }
    }

    private static IEnumerable<IndexRow> Texts(long key, Base value)
    {
        IEnumerable<string?> parts = value switch
        {
            HumanName human => [human.Text, human.Family, .. human.Given, .. human.Prefix, .. human.Suffix],
            Address address => [address.Text, .. address.Line, address.City, address.District, address.State, address.PostalCode, address.Country],
            PrimitiveType { JsonValue: string text } => [text],
            _ => [],
        };
        return parts.OfType<string>().Where(t => t.Length > 0).Select(t => IndexRow.Text(key, PlainText.Of(t), t));
    }

    private static IEnumerable<IndexRow> Uris(long key, Base value) =>
        value is PrimitiveType { JsonValue: string uri } ? [IndexRow.Token(key, null, uri)] : [];

    private static IEnumerable<IndexRow> Amounts(long key, Base value) => value switch
    {
        Quantity q when Number(q.ValueElement) is { } number => [Amount(key, number, q.Comparator, q.System, q.Code, q.Unit)],
        Money m when Number(m.ValueElement) is { } number => [Amount(key, number, null, "urn:iso:std:iso:4217", m.Currency?.ToString(), null)],
        PrimitiveType p when Number(p) is { } number => [Amount(key, number, null, null, null, null)],
        _ => [],
    };

    // A decimal beyond the range of .NET's stands in the element as text.
    private static double? Number(PrimitiveType? element) => element?.JsonValue switch
    {
        decimal exact => (double)exact,
        int whole => whole,
        long whole => whole,
        string text when double.TryParse(text, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) => number,
        _ => null,
    };

    // A value with a comparator is a bound, never the value itself: "> 180 s" is found by gt150 and by gt200, but not by 180.
    private static IndexRow Amount(long key, double value, Quantity.QuantityComparator? comparator, string? system, string? code, string? unit)
    {
        var (low, high) = comparator switch
        {
            Quantity.QuantityComparator.LessThan => (double.NegativeInfinity, double.BitDecrement(value)),
            Quantity.QuantityComparator.LessOrEqual => (double.NegativeInfinity, value),
            Quantity.QuantityComparator.GreaterOrEqual => (value, double.PositiveInfinity),
            Quantity.QuantityComparator.GreaterThan => (double.BitIncrement(value), double.PositiveInfinity),
            _ => (value, value),
        };
        return IndexRow.Amount(key, low, high, value, system, code, unit);
    }
}
