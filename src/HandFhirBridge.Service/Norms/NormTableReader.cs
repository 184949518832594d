using System.Collections.Immutable;
using CsvHelper;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Norms;

/// <summary>Reads a norm table as a person typed it: CSV with the columns task, hand, sex, age_min, age_max, n, mean, sd.</summary>
public static class NormTableReader
{
    private static readonly string[] Columns = ["task", "hand", "sex", "age_min", "age_max", "n", "mean", "sd"];

    /// <summary>The rows, or every field that cannot be read, with row and column.</summary>
    /// <param name="stream">The file, UTF-8.</param>
    /// <param name="name">Name shown in problems.</param>
    public static (ImmutableArray<NormRow> Rows, ImmutableArray<Problem> Problems) Read(Stream stream, string name)
    {
        using var csv = CsvReader.Create(stream, new CsvReaderOptions { HasHeader = false, DetectSeparatorHint = true }, leaveOpen: true);
        var header = csv.Read() ? Fields(csv) : [];
        var missing = Columns.Except(header).ToList();
        if (missing.Count > 0)
        {
            return ([], [.. missing.Select(c => NormProblems.MissingColumn.At(c, $"The table has no column \"{c}\".") with { Place = new(name, 1) })]);
        }

        var rows = ImmutableArray.CreateBuilder<NormRow>();
        var problems = ImmutableArray.CreateBuilder<Problem>();
        while (csv.Read())
        {
            var fields = Fields(csv);
            var row = header.Zip(fields.Concat(Enumerable.Repeat("", header.Length))).ToDictionary(p => p.First, p => p.Second);
            if (new NormTableRow(row, new(name, csv.RowNumber), problems).Read() is { } read)
            {
                rows.Add(read);
            }
        }

        return (rows.ToImmutable(), problems.ToImmutable());
    }

    private static string[] Fields(CsvReader csv) => [.. Enumerable.Range(0, csv.FieldCount).Select(i => csv.GetString(i).Trim())];
}
