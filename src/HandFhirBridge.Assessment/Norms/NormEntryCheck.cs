using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>Whether the arithmetic of a typed table is possible at all.</summary>
public static class NormEntryCheck
{
    private const int OldestAge = 120;

    /// <summary>Everything impossible in <paramref name="entry"/>, in the order of its rows.</summary>
    public static IEnumerable<Problem> Find(NormEntry entry, Instrument instrument)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(instrument);
        return entry.Rows.IsEmpty
            ? [NormProblems.EmptyTable.At("rows", $"The table {entry.SetId} has no row.")]
            : entry.Rows.SelectMany((row, index) => Row(row, $"rows[{index}]", instrument)).Concat(Bands(entry));
    }

    private static IEnumerable<Problem> Row(NormRow row, string at, Instrument instrument)
    {
        if (instrument.FindTask(row.Task) is null)
        {
            yield return NormProblems.UnknownTask.At($"{at}.task", $"The task \"{row.Task}\" is not one of {instrument.Id}.", row.Task);
        }

        if (row.Mean <= 0 || row.Mean > instrument.MaxSeconds)
        {
            yield return NormProblems.ImpossibleMean.At($"{at}.mean", $"The mean of {row.Name} is {Text(row.Mean)} s.", Text(row.Mean));
        }

        if (row.StandardDeviation <= 0 || row.StandardDeviation > row.Mean)
        {
            yield return NormProblems.ImpossibleDeviation.At(
                $"{at}.sd", $"The standard deviation of {row.Name} is {Text(row.StandardDeviation)} s beside a mean of {Text(row.Mean)} s.", Text(row.StandardDeviation));
        }

        if (row.AgeMin < 0 || row.AgeMax < row.AgeMin || row.AgeMax > OldestAge)
        {
            yield return NormProblems.ImpossibleBand.At($"{at}.age_min", $"The band of {row.Name} is none.", $"{row.AgeMin}-{row.AgeMax}");
        }
    }

    private static IEnumerable<Problem> Bands(NormEntry entry) =>
        from cells in entry.Rows.GroupBy(r => (r.Task, r.Role, r.Sex))
        let sorted = cells.OrderBy(r => r.AgeMin).ToList()
        from pair in sorted.Zip(sorted.Skip(1))
        where pair.Second.AgeMin <= pair.First.AgeMax
        select NormProblems.OverlappingBands.At(
            "rows", $"{pair.First.Name} and {pair.Second.AgeMin} to {pair.Second.AgeMax} years overlap.", $"{pair.Second.AgeMin}");

    private static string Text(decimal value) => value.ToString(CultureInfo.InvariantCulture);
}
