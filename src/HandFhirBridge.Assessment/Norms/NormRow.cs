using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>One cell as a person typed it.</summary>
/// <param name="Task">Task id.</param>
/// <param name="Role">Hand role.</param>
/// <param name="Sex">Female or male.</param>
/// <param name="AgeMin">Youngest age, whole years.</param>
/// <param name="AgeMax">Oldest age, whole years.</param>
/// <param name="N">Sample size; null if the source gives none.</param>
/// <param name="Mean">Mean, seconds.</param>
/// <param name="StandardDeviation">Standard deviation, seconds.</param>
public sealed record NormRow(
    string Task, HandRole Role, SexForNorm Sex, int AgeMin, int AgeMax, int? N, decimal Mean, decimal StandardDeviation)
{
    /// <summary>The cell in words, to name it in a message.</summary>
    public string Name =>
        $"{Task}, {(Role == HandRole.Dominant ? "dominant" : "non-dominant")} hand, {(Sex == SexForNorm.Female ? "female" : "male")}, {AgeMin} to {AgeMax} years";
}
