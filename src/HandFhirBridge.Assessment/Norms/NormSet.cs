using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>A table of norms from one source for one instrument.</summary>
/// <param name="Id">Stable id, for example <c>writing-older-adults</c>.</param>
/// <param name="Version">Version of the copy.</param>
/// <param name="Instrument">Instrument id.</param>
/// <param name="Title">Name shown beside scores.</param>
/// <param name="Cells">Cells that exist.</param>
public sealed record NormSet(string Id, string Version, string Instrument, string Title, ImmutableArray<NormCell> Cells)
{
    /// <summary>Weakest evidence among the cells: what the set as a whole can be trusted for.</summary>
    public Evidence Evidence => Cells.Max(c => c.Evidence);
}
