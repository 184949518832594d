using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Takes from a resource what its search parameters are about, one row a value.</summary>
internal static class IndexValues
{
    public static IEnumerable<IndexRow> Of(Resource resource) => SearchParameters.Of(resource.TypeName).Values
        .SelectMany(parameter => parameter.Values(resource).SelectMany(value => Rows(parameter, value)))
        .Distinct();

    private static IEnumerable<IndexRow> Rows(SearchParameter parameter, Base value) => parameter.Type switch
    {
        SearchParamType.Token => Tokens(parameter.Name, value),
        SearchParamType.Reference => References(parameter.Name, value),
        SearchParamType.Date => Spans(parameter.Name, value),
        SearchParamType.String => Texts(parameter.Name, value),
        SearchParamType.Uri => Uris(parameter.Name, value),
        SearchParamType.Number or SearchParamType.Quantity => Amounts(parameter.Name, value),
        _ => [],
    };

    private static IEnumerable<IndexRow> Tokens(string name, Base value) => value switch
    {
        CodeableConcept concept => concept.Coding.SelectMany(c => Tokens(name, c)),
        Coding { Code: { } code } coding => [new TokenRow(name, coding.System ?? "", code)],
        Identifier { Value: { } id } identifier => [new TokenRow(name, identifier.System ?? "", id)],
        ContactPoint { Value: { } number } => [new TokenRow(name, "", number)],
        FhirBoolean { Value: { } flag } => [new TokenRow(name, "", flag ? "true" : "false")],
        PrimitiveType { JsonValue: { } code } => [new TokenRow(name, "", code.ToString()!)],
        _ => [],
    };

    private static IEnumerable<IndexRow> References(string name, Base value) => value switch
    {
        ResourceReference reference when reference.Reference is not null || reference.Identifier?.Value is not null =>
            [new ReferenceRow(name, reference.Reference ?? "", reference.Identifier?.System ?? "", reference.Identifier?.Value ?? "")],
        PrimitiveType { JsonValue: string uri } => [new ReferenceRow(name, uri, "", "")],
        _ => [],
    };

    private static IEnumerable<IndexRow> Spans(string name, Base value)
    {
        switch (value)
        {
            case Period period:
                var low = period.Start is null ? long.MinValue : DateSpan.Parse(period.Start)?.Low;
                var high = period.End is null ? long.MaxValue : DateSpan.Parse(period.End)?.High;
                return low is { } l && high is { } h ? [new SpanRow(name, l, h)] : [];
            case Timing timing:
                return timing.EventElement.SelectMany(e => Spans(name, e));
            case Instant { Value: { } moment }:
                return [new SpanRow(name, moment.UtcTicks, moment.UtcTicks + TimeSpan.TicksPerMillisecond - 1)];
            case PrimitiveType { JsonValue: string text } when DateSpan.Parse(text) is { } span:
                return [new SpanRow(name, span.Low, span.High)];
            default:
                return [];
        }
    }

    private static IEnumerable<IndexRow> Texts(string name, Base value)
    {
        IEnumerable<string?> parts = value switch
        {
            HumanName human => [human.Text, human.Family, .. human.Given, .. human.Prefix, .. human.Suffix],
            Address address => [address.Text, .. address.Line, address.City, address.District, address.State, address.PostalCode, address.Country],
            PrimitiveType { JsonValue: string text } => [text],
            _ => [],
        };
        return parts.OfType<string>().Where(t => t.Length > 0).Select(t => new TextRow(name, PlainText.Of(t), t));
    }

    private static IEnumerable<IndexRow> Uris(string name, Base value) =>
        value is PrimitiveType { JsonValue: string uri } ? [new TokenRow(name, "", uri)] : [];

    private static IEnumerable<IndexRow> Amounts(string name, Base value)
    {
        var (number, system, code, unit) = value switch
        {
            Quantity quantity => (quantity.Value, quantity.System, quantity.Code, quantity.Unit),
            Money money => (money.Value, "urn:iso:std:iso:4217", money.Currency?.ToString(), null),
            FhirDecimal @decimal => (@decimal.Value, null, null, null),
            Integer integer => ((decimal?)integer.Value, null, null, null),
            _ => default((decimal?, string?, string?, string?)),
        };
        if (number is not { } n)
        {
            return [];
        }

        var span = NumberSpan.Of(n);
        return [new AmountRow(name, span.Low, span.High, span.Value, system ?? "", code ?? "", unit ?? "")];
    }
}
