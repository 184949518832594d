using System.Globalization;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary>What <c>$stats</c> was asked for (R4 OperationDefinition/Observation-stats).</summary>
/// <param name="Subject">Value of Observation.subject.reference.</param>
/// <param name="Codes">Codes to count, at least one.</param>
/// <param name="Period">Time asked for, as it is given back; null for all time.</param>
/// <param name="Statistics">Statistics, at least one, none twice.</param>
/// <param name="Limit">Most source Observations to return; 0 for none, null for all.</param>
internal sealed record StatsRequest(string Subject, IReadOnlyList<Coding> Codes, Period? Period, IReadOnlyList<Statistic> Statistics, int? Limit)
{
    /// <summary>First tick asked for; null where the time has no beginning.</summary>
    public long? Low { get; } = Period?.Start is { } start ? Span("period.start", start).Low : null;

    /// <summary>Last tick asked for; null where the time has no end.</summary>
    public long? High { get; } = Period?.End is { } end ? Span("period.end", end).High : null;

    /// <exception cref="RecordRefusal">400: a parameter is not known, has a wrong value, or is missing.</exception>
    public static StatsRequest Of(Parameters given, DateTimeOffset now)
    {
        var parameters = given.Parameter.Where(p => p.Name is not ("_format" or "_pretty")).ToLookup(p => p.Name ?? "");
        if (parameters.FirstOrDefault(p => p.Key is not ("subject" or "code" or "system" or "coding" or "duration" or "period" or "statistic" or "include" or "limit")) is { } unknown)
        {
            throw RecordRefusal.BadRequest(
                $"$stats does not know the parameter \"{unknown.Key}\"; it takes subject, code, system, coding, duration, period, statistic, include and limit.");
        }

        return new(Of("subject", Reference), Codings(), Time(), Statistic(), Sources());

        string Of(string name, Func<string, string> check) => Single(name) is { } value
            ? check(Text(name, value))
            : throw RecordRefusal.BadRequest($"$stats needs {name}.");

        DataType? Single(string name) => parameters[name].ToList() switch
        {
            [] => null,
            [var one] => one.Value ?? throw RecordRefusal.BadRequest($"{name} has no value."),
            _ => throw RecordRefusal.BadRequest($"{name} is given more than once; $stats takes it once."),
        };

        List<Coding> Codings()
        {
            var system = Single("system") is { } value ? Text("system", value) : null;
            var codes = parameters["code"].Select(p => new Coding(system, Text("code", p.Value))).ToList();
            if (codes.Count > 0 == system is null)
            {
                throw RecordRefusal.BadRequest("code and system go together: give both, or a coding instead.");
            }

            codes.AddRange(parameters["coding"].Select(p => p.Value is Coding { System: not null, Code: not null } coding
                ? coding
                : throw RecordRefusal.BadRequest("coding takes a Coding with system and code, in a Parameters resource by POST. In a URL, give code and system instead.")));
            return codes.Count > 0 ? codes : throw RecordRefusal.BadRequest("$stats needs code and system, or a coding.");
        }

        Period? Time()
        {
            var (duration, period) = (Single("duration"), Single("period"));
            return (duration, period) switch
            {
                (null, null) => null,
                (not null, not null) => throw RecordRefusal.BadRequest("duration and period are both given. Give one of them."),
                (null, Period { Start: not null } or Period { End: not null }) => (Period)period,
                (null, _) => throw RecordRefusal.BadRequest("period takes a Period with a start or an end, in a Parameters resource by POST. In a URL, give duration instead, in hours."),
                _ when decimal.TryParse(Text("duration", duration), NumberStyles.Number, CultureInfo.InvariantCulture, out var hours) && hours is > 0 and < 10_000_000
                    && now.UtcTicks > hours * TimeSpan.TicksPerHour =>
                    new Period(new FhirDateTime(now.AddTicks(-(long)(hours * TimeSpan.TicksPerHour))), new FhirDateTime(now)),
                _ => throw RecordRefusal.BadRequest($"duration is \"{Text("duration", duration)}\"; it takes a number of hours above 0."),
            };
        }

        List<Statistic> Statistic()
        {
            var names = parameters["statistic"].Select(p => Text("statistic", p.Value)).Distinct().ToList();
            var all = Stats.Statistic.All;
            return names.Find(n => !all.ContainsKey(n)) is { } name
                ? throw RecordRefusal.BadRequest($"statistic is \"{name}\"; it takes one of {string.Join(", ", all.Keys.Order(StringComparer.Ordinal))}, and may be repeated.")
                : names.Count > 0 ? [.. names.Select(n => all[n])] : throw RecordRefusal.BadRequest("$stats needs a statistic, such as average.");
        }

        // "If the include paramter is absent or equal to "false" the limit parameter SHALL be ignored by the server".
        int? Sources() => (Single("include") is { } include ? Text("include", include) : "false") switch
        {
            "false" => 0,
            "true" when Single("limit") is not { } limit => null,
            "true" when int.TryParse(Text("limit", Single("limit")), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number > 0 => number,
            "true" => throw RecordRefusal.BadRequest($"limit is \"{Text("limit", Single("limit"))}\"; it takes a whole number from 1."),
            var other => throw RecordRefusal.BadRequest($"include is \"{other}\"; it takes true or false."),
        };
    }

    private static string Text(string name, DataType? value) => value is PrimitiveType { JsonValue: { } primitive }
        ? primitive is bool flag ? (flag ? "true" : "false") : Convert.ToString(primitive, CultureInfo.InvariantCulture)!
        : throw RecordRefusal.BadRequest($"{name} has no value of a primitive type.");

    private static string Reference(string subject) => ReferenceText.TypeOf(subject) is not null
        ? subject
        : throw RecordRefusal.BadRequest($"subject is \"{subject}\"; it takes the reference of a resource, such as Patient/123.");

    private static DateSpan Span(string name, string value) => DateSpan.Parse(value)
        ?? throw RecordRefusal.BadRequest($"{name} is \"{value}\", which is not a date of FHIR, such as 2026-03-01.");
}
