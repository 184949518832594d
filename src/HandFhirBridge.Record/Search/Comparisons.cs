using HandFhirBridge.Record.Http;

namespace HandFhirBridge.Record.Search;

/// <summary>Dates, numbers and quantities compared by prefix: the span asked for against the span of the resource (R4 search.html#prefix).</summary>
internal static class Comparisons
{
    public static string Date(string name, string value, Func<object, string> add)
    {
        var asked = Prefixed.Parse(value);
        var span = DateSpan.Parse(asked.Value) ?? throw RecordRefusal.BadRequest(
            $"{name} is \"{value}\", which is not a date of FHIR (such as 2026-03-01) with one of the prefixes eq, ne, gt, lt, ge, le, sa, eb.");
        var (low, high) = (add(span.Low), add(span.High));
        var within = $"v.low >= {low} AND v.low <= {high} AND v.high <= {high}";
        return asked.Prefix switch
        {
            "eq" => within,
            "ne" => $"NOT ({within})",
            "gt" => $"v.high > {high}",
            "lt" => $"v.low < {low}",
            "ge" => $"v.high > {high} OR ({within})",
            "le" => $"v.low < {low} OR ({within})",
            "sa" => $"v.low > {high}",
            "eb" => $"v.high < {low}",
            _ => throw Unsupported(name, asked.Prefix),
        };
    }

    public static string Amount(string name, string value, Func<object, string> add)
    {
        var parts = Escaping.Split(value, '|');
        var asked = Prefixed.Parse(parts[0]);
        var span = NumberSpan.Parse(asked.Value) ?? throw RecordRefusal.BadRequest($"{name} is \"{value}\", which does not begin with a number.");
        return $"({Number(name, asked.Prefix, span, add)}){Unit(name, value, parts, add)}";
    }

    // R4 search.html#number: eq and ne go by the digits written; the others take the number as exact.
    private static string Number(string name, string prefix, NumberSpan span, Func<object, string> add) => prefix switch
    {
        "eq" => $"v.low >= {add(span.Low)} AND v.low < {add(span.High)} AND v.high < {add(span.High)}",
        "ne" => $"NOT (v.low >= {add(span.Low)} AND v.high < {add(span.High)})",
        "gt" => $"v.high > {add(span.Value)}",
        "lt" => $"v.low < {add(span.Value)}",
        "ge" => $"v.high >= {add(span.Value)}",
        "le" => $"v.low <= {add(span.Value)}",
        "sa" => $"v.low > {add(span.Value)}",
        "eb" => $"v.high < {add(span.Value)}",
        _ => throw Unsupported(name, prefix),
    };

    // R4 search.html#quantity: number; number|system|code; number||code, where the code or the unit as shown may match.
    private static string Unit(string name, string value, IReadOnlyList<string> parts, Func<object, string> add)
    {
        switch (parts)
        {
            case [_] or [_, "", ""]:
                return "";
            case [_, "", var code]:
                var either = add(Escaping.Unescape(code));
                return $" AND (v.code = {either} OR v.unit = {either})";
            case [_, var system, var code] when code.Length > 0:
                return $" AND v.system = {add(Escaping.Unescape(system))} AND v.code = {add(Escaping.Unescape(code))}";
            default:
                throw RecordRefusal.BadRequest($"{name} is \"{value}\"; write number, number|system|code or number||code.");
        }
    }

    private static RecordRefusal Unsupported(string name, string prefix) =>
        RecordRefusal.BadRequest($"The prefix \"{prefix}\" of {name} is not supported; eq, ne, gt, lt, ge, le, sa and eb are.");
}
