using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>Whether a typed table is complete, and its arithmetic possible at all.</summary>
public static class NormEntryCheck
{
    private const int OldestAge = 120;

    /// <summary>Everything impossible in <paramref name="entry"/>: its head, then its rows in their order, then their age bands.</summary>
    /// <exception cref="ArgumentException">The entry is for another instrument.</exception>
    public static IEnumerable<Problem> Find(NormEntry entry, Instrument instrument) => Find(entry, instrument, (_, _) => null);

    /// <param name="entry">The typed table.</param>
    /// <param name="instrument">The instrument it is for.</param>
    /// <param name="place">Where a row (0-based; null for the whole) and column stand in a file.</param>
    internal static IEnumerable<Problem> Find(NormEntry entry, Instrument instrument, Func<int?, string?, SourcePlace?> place)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(instrument);
        if (entry.Instrument != instrument.Id)
        {
            throw new ArgumentException($"The entry is for {entry.Instrument}, not for {instrument.Id}.", nameof(instrument));
        }

        return
        [
            .. Head(entry).Select(problem => problem with { Place = place(null, null) }),
            .. entry.Rows.SelectMany((row, index) => Row(row, instrument).Select(fault => fault.At(index, place(index, fault.Column)))),
            .. Bands(entry, place),
        ];
    }

    private static IEnumerable<Problem> Head(NormEntry entry)
    {
        foreach (var (field, text) in new[] { ("setId", entry.SetId), ("title", entry.Title), ("source", entry.Source), ("enteredBy", entry.EnteredBy) })
        {
            if (string.IsNullOrWhiteSpace(text))
            {
                yield return NormProblems.IncompleteHead.At(field, $"{field} is empty.");
            }
        }

        if (NormLibrary.Embedded.Sets.Any(set => set.Id == entry.SetId))
        {
            yield return NormProblems.SetIdTaken.At("setId", $"The id {entry.SetId} belongs to a norm set that comes with the product.", entry.SetId);
        }

        if (entry.Rows.IsEmpty)
        {
            yield return NormProblems.EmptyTable.At("rows", $"The table {entry.SetId} has no row.");
        }
    }

    private static IEnumerable<NormRowFault> Row(NormRow row, Instrument instrument)
    {
        if (instrument.FindTask(row.Task) is null)
        {
            yield return new(NormProblems.UnknownTask, "task", $"The task \"{row.Task}\" is not one of {instrument.Id}.", row.Task);
        }

        if (row.Sex is not (SexForNorm.Female or SexForNorm.Male))
        {
            yield return new(NormProblems.UnreadableField, "sex", $"The sex of {row.Name} is neither female nor male.", WireName.Of(row.Sex));
        }

        if (row.AgeMin < 0 || row.AgeMax < row.AgeMin || row.AgeMax > OldestAge)
        {
            yield return new(NormProblems.ImpossibleBand, "age_min", $"{row.AgeMin} to {row.AgeMax} years is no band of ages.", $"{row.AgeMin}-{row.AgeMax}");
        }

        foreach (var fault in NormRowArithmetic.Faults(row, instrument.MaxSeconds))
        {
            yield return fault;
        }
    }

    private static IEnumerable<Problem> Bands(NormEntry entry, Func<int?, string?, SourcePlace?> place) =>
        from cells in entry.Rows.Select((row, index) => (Row: row, Index: index)).GroupBy(r => (r.Row.Task, r.Row.Role, r.Row.Sex))
        let sorted = cells.OrderBy(r => r.Row.AgeMin).ToList()
        from pair in sorted.Zip(sorted.Skip(1))
        where pair.Second.Row.AgeMin <= pair.First.Row.AgeMax
        select NormProblems.OverlappingBands.At(
            $"rows[{pair.Second.Index}].age_min",
            $"{pair.First.Row.Name} and {pair.Second.Row.AgeMin} to {pair.Second.Row.AgeMax} years overlap.",
            pair.Second.Row.AgeMin.ToString(CultureInfo.InvariantCulture)) with { Place = place(pair.Second.Index, "age_min") };
}
