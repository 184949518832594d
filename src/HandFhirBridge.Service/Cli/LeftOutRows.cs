using System.Globalization;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Service.Cli;

/// <summary>Says which resources gave no row, so that no figure is taken for one of all of them.</summary>
internal static class LeftOutRows
{
    private const int Shown = 5;

    /// <summary>Says it of the rows that lie in a set.</summary>
    /// <returns>True if there are any.</returns>
    public static Task<bool> TellAsync(RowSet rows, TextWriter output) => TellAsync(rows.LeftOut(), $"; see _left-out.txt in {rows.Folder}", output);

    /// <summary>Says it of rows that were just read.</summary>
    /// <returns>True if there are any.</returns>
    public static Task<bool> TellAsync(IEnumerable<Problem> problems, TextWriter output) => TellAsync([.. problems.Select(problem => problem.ToString())], "; gather names the others", output);

    private static async Task<bool> TellAsync(IReadOnlyList<string> leftOut, string others, TextWriter output)
    {
        foreach (var line in leftOut.Take(Shown))
        {
            await output.WriteLineAsync($"left out: {line}");
        }

        if (leftOut.Count > Shown)
        {
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"left out: {leftOut.Count} in all{others}."));
        }

        return leftOut.Count > 0;
    }
}
