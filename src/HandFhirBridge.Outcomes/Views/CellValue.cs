using System.Globalization;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>A FHIR primitive as the cell of a row.</summary>
internal static class CellValue
{
    /// <summary>The value in the type of its column.</summary>
    /// <returns>False if it is not of that type, or not a primitive.</returns>
    public static bool TryConvert(Base element, ColumnKind kind, out object? cell)
    {
        cell = null;
        if (element is not PrimitiveType primitive)
        {
            return false;
        }

        var value = primitive.JsonValue;
        cell = (kind, value) switch
        {
            (ColumnKind.Text, string text) => text,
            (ColumnKind.Text, not null) => primitive.ToString(),
            (ColumnKind.Flag, bool flag) => flag,
            (ColumnKind.Number, int or long or decimal) => Convert.ToDecimal(value, CultureInfo.InvariantCulture),
            (ColumnKind.Whole, int or long or decimal) => Whole(value, int.MinValue, int.MaxValue) is { } whole ? (int)whole : null,
            (ColumnKind.LargeWhole, int or long or decimal or string) => Whole(value, long.MinValue, long.MaxValue) is { } whole ? (long)whole : null,
            _ => null,
        };
        return cell is not null || value is null;
    }

    // Numbers that FHIRPath calculates are decimals; integer64 travels as text.
    private static decimal? Whole(object value, decimal least, decimal most) =>
        decimal.TryParse(Convert.ToString(value, CultureInfo.InvariantCulture), NumberStyles.Number, CultureInfo.InvariantCulture, out var number)
        && decimal.Truncate(number) == number && number >= least && number <= most ? number : null;
}
