using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>First row of a table.</summary>
/// <param name="Source">File the table stands in.</param>
/// <param name="Names">Column names in their order.</param>
/// <param name="Separator">Comma, semicolon or tab.</param>
public sealed record CsvHeader(string Source, ImmutableArray<string> Names, char Separator)
{
    /// <summary>True if a number may have a decimal comma: the comma does not separate columns.</summary>
    public bool DecimalCommaAllowed => Separator != ',';

    internal int Find(string name) => Names.IndexOf(name, StringComparer.Ordinal);

    /// <summary>What is wrong with the header; nothing of the table can be read then.</summary>
    internal ImmutableArray<Problem> Faults()
    {
        if (!",;\t".Contains(Separator) || !Names.Any(CsvColumns.IsKnown))
        {
            return [At(IntakeProblems.HeaderUnusable, null, "The first row names no column of a session table.", string.Join(Separator, Names.Take(5)))];
        }

        var faults = new List<Problem>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var meant = new HashSet<string>(StringComparer.Ordinal);
        foreach (var name in Names)
        {
            if (!seen.Add(name))
            {
                faults.Add(At(IntakeProblems.DuplicateColumn, name, $"The column {name} is given twice.", name));
            }
            else if (!CsvColumns.IsKnown(name))
            {
                faults.Add(Unknown(name, meant));
            }
        }

        faults.AddRange(CsvColumns.Required.Where(r => !seen.Contains(r) && !meant.Contains(r))
            .Select(r => At(IntakeProblems.MissingColumn, r, $"The column {r} is missing.", null)));
        return [.. faults];
    }

    private Problem Unknown(string name, HashSet<string> meant)
    {
        var near = NearestName.Of(name, CsvColumns.Fixed.Keys.Except(Names));
        if (near is not null)
        {
            meant.Add(near);
        }

        return At(IntakeProblems.UnknownColumn, name, $"The column {name} is not a column of a session table.", name,
            near is null ? null : $"Did you mean \"{near}\"? Rename it, or remove it.");
    }

    private Problem At(ProblemKind kind, string? column, string message, string? found, string? remedy = null) =>
        kind.At("", message, found, remedy) with { Place = new SourcePlace(Source, 1, column) };
}
