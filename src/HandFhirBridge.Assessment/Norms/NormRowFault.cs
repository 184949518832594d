using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>One thing wrong with one field of a row, before it is known where the row stands.</summary>
internal sealed record NormRowFault(ProblemKind Kind, string Column, string Message, string Found)
{
    /// <param name="row">0-based row of the entry.</param>
    /// <param name="place">Where it stands in a file; null without a file.</param>
    public Problem At(int row, SourcePlace? place) => Kind.At($"rows[{row}].{Column}", Message, Found) with { Place = place };
}
