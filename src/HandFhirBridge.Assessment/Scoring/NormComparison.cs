using HandFhirBridge.Assessment.Norms;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>A norm that applies to a trial.</summary>
/// <param name="NormSetId">Set the cell is from.</param>
/// <param name="NormSetVersion">Version of the set.</param>
/// <param name="Cell">The cell itself, with source and evidence.</param>
public sealed record NormComparison(string NormSetId, string NormSetVersion, NormCell Cell)
{
    /// <summary>True if the norm is from memory and serves demonstration only.</summary>
    public bool DemonstrationOnly => Cell.Evidence == Evidence.Recalled;
}
