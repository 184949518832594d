using System.Globalization;
using HandFhirBridge.Outcomes.Rows;

namespace HandFhirBridge.Service.Cli;

/// <summary>Says which resources gave no row, so that no figure is taken for one of all of them.</summary>
internal static class LeftOutRows
{
    private const int Shown = 5;

    /// <returns>True if there are any.</returns>
    public static async Task<bool> TellAsync(RowSet rows, TextWriter output)
    {
        var leftOut = rows.LeftOut();
        foreach (var line in leftOut.Take(Shown))
        {
            await output.WriteLineAsync($"left out: {line}");
        }

        if (leftOut.Count > Shown)
        {
            await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"left out: {leftOut.Count} in all; see _left-out.txt in {rows.Folder}."));
        }

        return leftOut.Count > 0;
    }
}
