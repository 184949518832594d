using System.Globalization;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>One row of a typed table, field by field.</summary>
/// <param name="fields">Text by column, trimmed.</param>
/// <param name="place">Table and row.</param>
/// <param name="separator">What separates the columns; a decimal comma is possible where it is not a comma.</param>
/// <param name="problems">Takes what cannot be read.</param>
internal sealed class NormEntryFields(IReadOnlyDictionary<string, string> fields, SourcePlace place, char separator, List<Problem> problems)
{
    private const int MostDigits = 9;

    /// <summary>The row; null if it cannot be read, or stands for a cell that the source leaves empty.</summary>
    public NormRow? Read()
    {
        var before = problems.Count;
        var row = new NormRow(
            fields["task"],
            Choice<HandRole>("hand", WireName.All<HandRole>()),
            Choice<SexForNorm>("sex", [WireName.Of(SexForNorm.Female), WireName.Of(SexForNorm.Male)]),
            Whole("age_min"),
            Whole("age_max"),
            Optional("n") ? Whole("n") : null,
            EmptyCell ? 0 : Number("mean"),
            EmptyCell ? 0 : Number("sd"))
        {
            Minimum = Optional("min") ? Number("min") : null,
            Maximum = Optional("max") ? Number("max") : null,
        };
        return problems.Count == before && !EmptyCell ? row : null;
    }

    private bool EmptyCell => fields["mean"].Length == 0 && fields["sd"].Length == 0;

    private bool Optional(string column) => fields.TryGetValue(column, out var text) && text.Length > 0;

    private T Choice<T>(string column, IReadOnlyCollection<string> words)
        where T : struct, Enum =>
        words.Contains(fields[column]) ? WireName.Find<T>(fields[column])!.Value : Fail<T>(column, $"is none of {string.Join(", ", words)}");

    private int Whole(string column)
    {
        var text = fields[column];
        return text.Length <= MostDigits && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : Fail<int>(column, "is not a whole number");
    }

    private decimal Number(string column)
    {
        var text = separator == ',' ? fields[column] : fields[column].Replace(',', '.');
        return text.Length <= 2 * MostDigits && decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? number
            : Fail<decimal>(column, text.Contains(',') ? "has a decimal comma in a table whose columns commas separate" : "is not a number such as 12.2");
    }

    private T Fail<T>(string column, string what)
        where T : struct
    {
        var shown = ProblemList.Shown(fields[column]);
        problems.Add(NormProblems.UnreadableField.At(column, $"{column} is \"{shown}\", which {what}.", shown) with { Place = place with { Column = column } });
        return default;
    }
}
