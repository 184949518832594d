using System.Globalization;
using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Digits a decimal column has room for. Nothing is rounded on its way into a table.</summary>
/// <param name="precision">Digits in all.</param>
/// <param name="scale">Digits after the point.</param>
internal sealed partial class DecimalLimit(int precision, int scale)
{
    public static DecimalLimit? Of(RowColumn column) => Form().Match(SqlTypes.Of(column)) is { Success: true } found
        ? new(int.Parse(found.Groups["precision"].ValueSpan, CultureInfo.InvariantCulture), int.Parse(found.Groups["scale"].ValueSpan, CultureInfo.InvariantCulture))
        : null;

    /// <summary>What is wrong with a value; null if it keeps all of its digits.</summary>
    public Problem? Fault(string table, string column, object? value) => value switch
    {
        object?[] several => several.Select(one => Fault(table, column, one)).FirstOrDefault(fault => fault is not null),
        decimal number when decimal.Round(number, Math.Min(scale, 28)) != number || Math.Abs(number) >= (decimal)Math.Pow(10, precision - scale) => RowProblems.NumberDoesNotFit.At(
            column, string.Create(CultureInfo.InvariantCulture, $"{number} in {table}.{column} has more digits than DECIMAL({precision},{scale}) keeps."), number.ToString(CultureInfo.InvariantCulture)),
        _ => null,
    };

    [GeneratedRegex(@"^DECIMAL\(\s*(?<precision>\d+)\s*,\s*(?<scale>\d+)\s*\)", RegexOptions.IgnoreCase)]
    private static partial Regex Form();
}
