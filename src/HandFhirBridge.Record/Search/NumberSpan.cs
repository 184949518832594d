using System.Globalization;

namespace HandFhirBridge.Record.Search;

/// <summary>A number as written, with the span its digits stand for (R4 search.html#number): 12.4 is 12.35 up to 12.45.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
/// <param name="Value">The number itself.</param>
internal readonly record struct NumberSpan(double Low, double High, double Value)
{
    /// <summary>Span of a written number; null if it is none.</summary>
    public static NumberSpan? Parse(string text) =>
        decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) ? Of(value) : null;

    /// <summary>Span of a number by its digits.</summary>
    public static NumberSpan Of(decimal value)
    {
        var half = 0.5m / (decimal)Math.Pow(10, value.Scale);
        return new((double)(value - half), (double)(value + half), (double)value);
    }
}
