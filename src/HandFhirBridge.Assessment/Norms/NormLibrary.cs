using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>The norm sets at hand. A cell with better evidence goes before one with weaker; among equals, the set added last.</summary>
/// <param name="sets">Sets, later ones before earlier ones of the same evidence.</param>
public sealed class NormLibrary(ImmutableArray<NormSet> sets)
{
    /// <summary>The sets that come with the product.</summary>
    public static NormLibrary Embedded { get; } = new(EmbeddedData.ReadAll("Norms", EmbeddedDataContext.Default.NormSet));

    /// <summary>Every set.</summary>
    public ImmutableArray<NormSet> Sets { get; } = sets;

    /// <summary>This library with a site's own set added.</summary>
    /// <exception cref="ArgumentException">A set with this id is there already: a score could not tell which of them it was made with.</exception>
    public NormLibrary With(NormSet set)
    {
        ArgumentNullException.ThrowIfNull(set);
        return Sets.Any(s => s.Id == set.Id)
            ? throw new ArgumentException($"There is a norm set {set.Id} already.", nameof(set))
            : new(Sets.Add(set));
    }

    /// <summary>The cell that applies, or null if none does.</summary>
    /// <param name="instrument">Instrument id.</param>
    /// <param name="task">Task id.</param>
    /// <param name="role">Hand role.</param>
    /// <param name="sex">Female or male; unknown has no norm.</param>
    /// <param name="age">Whole years on the session's day.</param>
    /// <param name="demonstration">True lets cells from memory apply.</param>
    public NormComparison? Find(string instrument, string task, HandRole role, SexForNorm sex, int age, bool demonstration) =>
        Usable(instrument, demonstration)
            .Where(n => n.Cell.Task == task && n.Cell.Role == role && n.Cell.Sex == sex)
            .Where(n => age >= n.Cell.AgeMin && age <= n.Cell.AgeMax)
            .OrderBy(n => n.Cell.Evidence)
            .FirstOrDefault();

    /// <summary>True if some usable cell of the instrument covers this age.</summary>
    public bool CoversAge(string instrument, int age, bool demonstration) =>
        Usable(instrument, demonstration).Any(n => age >= n.Cell.AgeMin && age <= n.Cell.AgeMax);

    // OrderBy is stable, so reversing puts the set added last first among cells of equal evidence.
    private IEnumerable<NormComparison> Usable(string instrument, bool demonstration) =>
        Sets.Reverse()
            .Where(set => set.Instrument == instrument)
            .SelectMany(set => set.Cells.Select(cell => new NormComparison(set.Id, set.Version, cell)))
            .Where(norm => demonstration || !norm.DemonstrationOnly);
}
