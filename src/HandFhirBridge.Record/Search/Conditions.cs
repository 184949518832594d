using System.Globalization;
using Dapper;
using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Search;

/// <summary>Turns criteria into SQL over the index tables. Values travel as parameters only.</summary>
/// <param name="parameters">Collects the values.</param>
internal sealed class Conditions(DynamicParameters parameters)
{
    private int number;

    /// <summary>Condition on the row of <c>resource</c> called <paramref name="alias"/>.</summary>
    public string Of(Criterion criterion, string alias)
    {
        var table = Table(criterion.Parameter.Type);
        var from = $"SELECT 1 FROM {table} WHERE {table}.rid = {alias}.rid AND {table}.param = {Add(criterion.Parameter.Name)}";
        return criterion switch
        {
            { Chain: { } chain } => Chained(criterion, chain, alias),
            { Modifier: "missing" } => $"{(Flag(criterion) ? "NOT EXISTS" : "EXISTS")} ({from})",
            { Modifier: "not" } => $"NOT EXISTS ({from} AND ({Any(criterion)}))",
            _ when criterion.Parameter.Name == "_id" => $"{alias}.id IN ({string.Join(", ", criterion.Values.Select(v => Add(Escaping.Unescape(v))))})",
            _ => $"EXISTS ({from} AND ({Any(criterion)}))",
        };
    }

    private static string Table(SearchParamType type) => type switch
    {
        SearchParamType.Token or SearchParamType.Uri => "token",
        SearchParamType.Reference => "reference",
        SearchParamType.Date => "span",
        SearchParamType.String => "text",
        _ => "amount",
    };

    private static bool Flag(Criterion criterion) => criterion.Values switch
    {
        ["true"] => true,
        ["false"] => false,
        _ => throw RecordRefusal.BadRequest($"{criterion.Parameter.Name}:missing takes true or false."),
    };

    private string Chained(Criterion criterion, Criterion chain, string alias)
    {
        var target = $"c{++number}";
        return $"""
            EXISTS (SELECT 1 FROM reference JOIN resource {target} ON {target}.type = {Add(criterion.ChainType!)} AND reference.target = {target}.type || '/' || {target}.id
              WHERE reference.rid = {alias}.rid AND reference.param = {Add(criterion.Parameter.Name)} AND {target}.deleted = 0 AND {Of(chain, target)})
            """;
    }

    private string Any(Criterion criterion) => string.Join(" OR ", criterion.Values.Select(v => One(criterion, v)));

    private string One(Criterion criterion, string value) => criterion.Parameter.Type switch
    {
        SearchParamType.Token => Token(value),
        SearchParamType.Uri => $"token.code = {Add(Escaping.Unescape(value))}",
        SearchParamType.Reference => Reference(criterion, value),
        SearchParamType.Date => Date(criterion, value),
        SearchParamType.String => Text(criterion, Escaping.Unescape(value)),
        _ => Amount(criterion, value),
    };

    private string Token(string value) => Escaping.Split(value, '|') switch
    {
        [var code] => $"token.code = {Add(Escaping.Unescape(code))}",
        [var system, ""] => $"token.system = {Add(Escaping.Unescape(system))}",
        [var system, var code] => $"token.code = {Add(Escaping.Unescape(code))} AND token.system = {Add(Escaping.Unescape(system))}",
        _ => throw RecordRefusal.BadRequest($"The token \"{value}\" has more than one bar. Write system|code."),
    };

    private string Reference(Criterion criterion, string value)
    {
        if (criterion.Modifier == "identifier")
        {
            return Escaping.Split(value, '|') switch
            {
                [var code] => $"reference.value = {Add(Escaping.Unescape(code))}",
                [var system, var code] => $"reference.value = {Add(Escaping.Unescape(code))} AND reference.system = {Add(Escaping.Unescape(system))}",
                _ => throw RecordRefusal.BadRequest($"The identifier \"{value}\" has more than one bar. Write system|value."),
            };
        }

        var target = Escaping.Unescape(value);
        IEnumerable<string> forms = target.Contains('/', StringComparison.Ordinal)
            ? [target]
            : criterion.Modifier is { } type ? [$"{type}/{target}"] : criterion.Parameter.Targets.Select(t => $"{t}/{target}");
        return $"reference.target IN ({string.Join(", ", forms.Select(Add))})";
    }

    private string Text(Criterion criterion, string value) => criterion.Modifier switch
    {
        "exact" => $"text.exact = {Add(value)}",
        "contains" => $"instr(text.plain, {Add(PlainText.Of(value))}) > 0",
        // A range instead of LIKE uses the index and needs no escaping of wildcards.
        _ when PlainText.Of(value) is { Length: > 0 } plain => $"text.plain >= {Add(plain)} AND text.plain < {Add(plain + '\uffff')}",
        _ => "1 = 0",
    };

    private string Date(Criterion criterion, string value)
    {
        var asked = Prefixed.Parse(value);
        var span = DateSpan.Parse(asked.Value) ?? throw RecordRefusal.BadRequest(
            $"{criterion.Parameter.Name} is \"{value}\", which is not a date of FHIR with one of the prefixes eq, ne, gt, lt, ge, le, sa, eb.");
        return Compare(asked.Prefix, "span", Add(span.Low), Add(span.High), value);
    }

    private string Amount(Criterion criterion, string value)
    {
        var parts = Escaping.Split(value, '|');
        var asked = Prefixed.Parse(parts[0]);
        var span = NumberSpan.Parse(asked.Value) ?? throw RecordRefusal.BadRequest(
            $"{criterion.Parameter.Name} is \"{value}\", which does not begin with a number.");
        var number = asked.Prefix switch
        {
            "eq" => $"amount.value >= {Add(span.Low)} AND amount.value < {Add(span.High)}",
            "ne" => $"(amount.value < {Add(span.Low)} OR amount.value >= {Add(span.High)})",
            "gt" or "sa" => $"amount.value > {Add(span.Value)}",
            "lt" or "eb" => $"amount.value < {Add(span.Value)}",
            "ge" => $"amount.value >= {Add(span.Value)}",
            "le" => $"amount.value <= {Add(span.Value)}",
            _ => throw RecordRefusal.BadRequest($"The prefix {asked.Prefix} is not supported."),
        };
        return parts switch
        {
            [_] => number,
            [_, var system, var code] when system.Length > 0 => $"{number} AND amount.system = {Add(Escaping.Unescape(system))} AND amount.code = {Add(Escaping.Unescape(code))}",
            [_, "", var code] => $"{number} AND (amount.code = {Add(Escaping.Unescape(code))} OR amount.unit = {Add(Escaping.Unescape(code))})",
            _ => throw RecordRefusal.BadRequest($"The quantity \"{value}\" is not number, or number|system|code."),
        };
    }

    // R4 search.html#prefix: the span asked for against the span of the resource.
    private static string Compare(string prefix, string table, string low, string high, string value) => prefix switch
    {
        "eq" => $"{table}.low >= {low} AND {table}.high <= {high}",
        "ne" => $"NOT ({table}.low >= {low} AND {table}.high <= {high})",
        "gt" => $"{table}.high > {high}",
        "lt" => $"{table}.low < {low}",
        "ge" => $"({table}.high > {high} OR ({table}.low >= {low} AND {table}.high <= {high}))",
        "le" => $"({table}.low < {low} OR ({table}.low >= {low} AND {table}.high <= {high}))",
        "sa" => $"{table}.low > {high}",
        "eb" => $"{table}.high < {low}",
        _ => throw RecordRefusal.BadRequest($"The prefix {prefix} of \"{value}\" is not supported."),
    };

    private string Add(object value)
    {
        var name = "p" + (++number).ToString(CultureInfo.InvariantCulture);
        parameters.Add(name, value);
        return "@" + name;
    }
}
