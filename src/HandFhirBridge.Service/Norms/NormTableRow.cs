using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Norms;

/// <summary>One row of a typed table, field by field.</summary>
/// <param name="fields">Text by column.</param>
/// <param name="place">File and row.</param>
/// <param name="problems">Takes what cannot be read.</param>
internal sealed class NormTableRow(IReadOnlyDictionary<string, string> fields, SourcePlace place, ImmutableArray<Problem>.Builder problems)
{
    public NormRow? Read()
    {
        var before = problems.Count;
        var row = new NormRow(
            fields["task"],
            Choice("hand", ("dominant", HandRole.Dominant), ("non-dominant", HandRole.NonDominant)),
            Choice("sex", ("female", SexForNorm.Female), ("male", SexForNorm.Male)),
            (int)Number("age_min", whole: true),
            (int)Number("age_max", whole: true),
            fields["n"].Length == 0 ? null : (int)Number("n", whole: true),
            Number("mean"),
            Number("sd"));
        return problems.Count == before ? row : null;
    }

    private T Choice<T>(string column, params (string Word, T Value)[] choices)
        where T : struct
    {
        var found = choices.Where(c => c.Word == fields[column]).Select(c => (T?)c.Value).FirstOrDefault();
        return found ?? Fail<T>(column, $"is none of {string.Join(", ", choices.Select(c => c.Word))}");
    }

    private decimal Number(string column, bool whole = false)
    {
        var style = whole ? NumberStyles.None : NumberStyles.AllowDecimalPoint;
        return decimal.TryParse(fields[column], style, CultureInfo.InvariantCulture, out var number) && number < 1_000_000
            ? number
            : Fail<decimal>(column, whole ? "is not a whole number" : "is not a number with a point for decimals");
    }

    private T Fail<T>(string column, string what)
        where T : struct
    {
        var problem = NormProblems.UnreadableField.At(column, $"{column} is \"{fields[column]}\", which {what}.", fields[column]);
        problems.Add(problem with { Place = place with { Column = column } });
        return default;
    }
}
