using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>One cell of a norm table. A cell that the source or our copy leaves empty does not exist.</summary>
/// <param name="Task">Task id.</param>
/// <param name="Role">Hand role the norm is for.</param>
/// <param name="Sex">Female or male.</param>
/// <param name="AgeMin">Youngest age in whole years, inclusive.</param>
/// <param name="AgeMax">Oldest age in whole years, inclusive.</param>
/// <param name="N">Size of the sample; null if not known.</param>
/// <param name="Mean">Mean in the instrument's unit.</param>
/// <param name="StandardDeviation">Standard deviation, greater than zero, same unit.</param>
/// <param name="Evidence">How this cell was obtained.</param>
/// <param name="Source">Citation.</param>
/// <param name="Note">Remark of the source or of whoever copied it; null if none.</param>
public sealed record NormCell(
    string Task,
    HandRole Role,
    SexForNorm Sex,
    int AgeMin,
    int AgeMax,
    int? N,
    decimal Mean,
    decimal StandardDeviation,
    Evidence Evidence,
    string Source,
    string? Note);
