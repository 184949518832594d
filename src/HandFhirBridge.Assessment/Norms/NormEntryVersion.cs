using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>
/// Version of a table that a site typed: it follows from the numbers and the citation, so that a score tells which table it was made
/// with even after the site corrected a cell, and a table typed again unchanged keeps its version.
/// </summary>
internal static class NormEntryVersion
{
    private const int Length = 12;

    public static string Of(NormEntry entry)
    {
        var cells = entry.Rows.Select(Text).Order(StringComparer.Ordinal).Prepend($"{entry.Instrument}|{entry.Source}");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', cells))))[..Length];
    }

    // G29 writes 3.50 and 3.5 alike.
    private static string Text(NormRow row) => string.Create(
        CultureInfo.InvariantCulture,
        $"{row.Task}|{WireName.Of(row.Role)}|{WireName.Of(row.Sex)}|{row.AgeMin}|{row.AgeMax}|{row.N}|{row.Mean:G29}|{row.StandardDeviation:G29}");
}
