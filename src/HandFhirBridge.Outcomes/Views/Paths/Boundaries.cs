using System.Globalization;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;
using Hl7.FhirPath;
using Hl7.FhirPath.Expressions;

namespace HandFhirBridge.Outcomes.Views.Paths;

/// <summary>
/// <c>lowBoundary()</c> and <c>highBoundary()</c> of dates, moments and times of day, of the type they are called on, to the millisecond and with
/// the zone furthest east or west where none is written, as FHIRPath 3.0 (lowBoundary, highBoundary) has it. The SDK gives moments without
/// zone for all of them; for everything else its own functions are asked.
/// </summary>
internal static class Boundaries
{
    private const string Low = "lowBoundary";
    private const string High = "highBoundary";

    /// <summary>Adds both to a table whose parent has those of the SDK.</summary>
    public static void AddTo(SymbolTable table, SymbolTable standard)
    {
        var compiler = new FhirPathCompiler(standard);
        var (low, high) = (compiler.Compile(Low + "()"), compiler.Compile(High + "()"));
        table.Add(Low, (PocoNode focus) => Of(focus, high: false, low), doNullProp: true);
        table.Add(High, (PocoNode focus) => Of(focus, high: true, high), doNullProp: true);
    }

    private static IEnumerable<PocoNode> Of(PocoNode focus, bool high, CompiledExpression other) => focus.Poco switch
    {
        Date { Value: { } text } => [PocoNode.ForPrimitive(new Date(Day(text, high)))],
        FhirDateTime { Value: { } text } => [PocoNode.ForPrimitive(new FhirDateTime(Moment(text, high)))],
        Instant instant => [PocoNode.ForPrimitive(new FhirDateTime(Moment(instant.ToString()!, high)))],
        Time { Value: { } text } => [PocoNode.ForPrimitive(new Time(Clock(text, high)))],
        _ => other([focus], new FhirEvaluationContext()),
    };

    private static string Day(string text, bool high)
    {
        var year = int.Parse(text.AsSpan(0, 4), CultureInfo.InvariantCulture);
        var month = text.Length >= 7 ? int.Parse(text.AsSpan(5, 2), CultureInfo.InvariantCulture) : high ? 12 : 1;
        var day = text.Length >= 10 ? int.Parse(text.AsSpan(8, 2), CultureInfo.InvariantCulture) : high ? DateTime.DaysInMonth(year, month) : 1;
        return string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{month:00}-{day:00}");
    }

    private static string Moment(string text, bool high)
    {
        var time = text.IndexOf('T', StringComparison.Ordinal);
        if (time < 0)
        {
            return $"{Day(text, high)}T{Clock("", high)}{Zone("", high)}";
        }

        var zone = text.AsSpan(time).IndexOfAny('Z', '+', '-') is var at and >= 0 ? time + at : text.Length;
        return $"{text[..time]}T{Clock(text[(time + 1)..zone], high)}{Zone(text[zone..], high)}";
    }

    // The earliest moment a local time can mean is in the zone furthest east, UTC+14, the latest in the one furthest west, UTC-12.
    private static string Zone(string written, bool high) => written.Length > 0 ? written : high ? "-12:00" : "+14:00";

    private static string Clock(string written, bool high)
    {
        var limit = high ? "23:59:59.999" : "00:00:00.000";
        return written.Length >= limit.Length ? written : written + limit[written.Length..];
    }
}
