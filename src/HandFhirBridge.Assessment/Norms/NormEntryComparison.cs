using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>
/// Compares a table typed by two people cell by cell. Only where both agree, and the arithmetic is possible, does it become
/// a norm set that scores.
/// </summary>
public static class NormEntryComparison
{
    /// <summary>The norm set, or everything that stands in the way.</summary>
    /// <exception cref="ArgumentException">An entry is for another instrument.</exception>
    public static Outcome<NormSet> Compare(NormEntry first, NormEntry second, Instrument instrument)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        ImmutableArray<Problem> problems =
            [.. Heads(first, second), .. Cells(first, second), .. NormEntryCheck.Find(first, instrument), .. NormEntryCheck.Find(second, instrument)];
        return problems.IsEmpty ? new(Set(first), []) : new(null, [.. problems.Distinct()]);
    }

    private static IEnumerable<Problem> Heads(NormEntry first, NormEntry second)
    {
        // Case, and white space within, do not make another person of somebody.
        if (string.Equals(Person(first), Person(second), StringComparison.OrdinalIgnoreCase))
        {
            yield return NormProblems.SamePerson.At("enteredBy", $"Both entries were typed by {first.EnteredBy}.", first.EnteredBy);
        }

        if ((first.SetId, first.Instrument, first.Title, first.Source) != (second.SetId, second.Instrument, second.Title, second.Source))
        {
            yield return NormProblems.HeadsDiffer.At(
                "", $"{first.SetId}, \"{first.Title}\" from \"{first.Source}\", is not {second.SetId}, \"{second.Title}\" from \"{second.Source}\".");
        }
    }

    private static string Person(NormEntry entry) => string.Join(' ', entry.EnteredBy.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static IEnumerable<Problem> Cells(NormEntry first, NormEntry second)
    {
        var one = first.Rows.ToLookup(r => r.Name);
        var two = second.Rows.ToLookup(r => r.Name);
        foreach (var name in one.Select(g => g.Key).Union(two.Select(g => g.Key)))
        {
            // Numbers are compared as numbers: 3.50 and 3.5 are the same norm.
            var (a, b) = (one[name].FirstOrDefault(), two[name].FirstOrDefault());
            if (a is null || b is null || a != b)
            {
                yield return NormProblems.CellsDiffer.At(
                    name, $"{name}: {first.EnteredBy} typed {Text(a)}, {second.EnteredBy} typed {Text(b)}.");
            }
        }
    }

    private static string Text(NormRow? row) => row is null
        ? "nothing"
        : string.Create(CultureInfo.InvariantCulture, $"{row.Mean} (SD {row.StandardDeviation}{Sample(row)}{Range(row)})");

    private static string Sample(NormRow row) => row.N is { } n ? string.Create(CultureInfo.InvariantCulture, $", n {n}") : "";

    private static string Range(NormRow row) => (row.Minimum ?? row.Maximum) is null
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $", range {row.Minimum} to {row.Maximum}");

    private static NormSet Set(NormEntry entry) => new(
        entry.SetId,
        NormEntryVersion.Of(entry),
        entry.Instrument,
        entry.Title,
        [
            .. entry.Rows.Select(r => new NormCell(
                r.Task, r.Role, r.Sex, r.AgeMin, r.AgeMax, r.N, r.Mean, r.StandardDeviation, Evidence.SiteDoubleEntry, entry.Source, null)),
        ]);
}
