using System.Globalization;

namespace HandFhirBridge.Record.Search;

/// <summary>A number as asked for, with the span its digits stand for (R4 search.html#number): 100 is 99.5 up to 100.5.</summary>
/// <param name="Low">Lower end, which belongs to it.</param>
/// <param name="High">Upper end, which does not.</param>
/// <param name="Value">The number itself, which comparisons use as if it were exact.</param>
internal readonly record struct NumberSpan(double Low, double High, double Value)
{
    private const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    /// <summary>Span of a written number; null if it is none.</summary>
    public static NumberSpan? Parse(string text)
    {
        if (!double.TryParse(text, Style, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
        {
            return null;
        }

        var parts = text.Split('e', 'E');
        var fraction = parts[0].IndexOf('.', StringComparison.Ordinal) is var dot and >= 0 ? parts[0].Length - dot - 1 : 0;
        // The specification's example 1e2 is 95 up to 105: with an exponent, one digit more than is written.
        var place = parts.Length > 1 ? int.Parse(parts[1], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture) - fraction - 1 : -fraction;
        // Through decimal where it reaches, so that 12.4 ends at the very double that 12.45 is stored as.
        if (Math.Abs(place) <= 27 && decimal.TryParse(text, Style, CultureInfo.InvariantCulture, out var exact) && Math.Abs(exact) < 1e15m)
        {
            var half = place <= 0 ? 0.5m / Power(-place) : 0.5m * Power(place);
            return new((double)(exact - half), (double)(exact + half), value);
        }

        var wide = 0.5 * Math.Pow(10, place);
        return new(value - wide, value + wide, value);
    }

    private static decimal Power(int exponent) => Enumerable.Repeat(10m, exponent).Aggregate(1m, (a, b) => a * b);
}
