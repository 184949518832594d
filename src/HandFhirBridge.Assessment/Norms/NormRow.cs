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
    /// <summary>Shortest time of the sample, seconds; null if the source prints no range. Checks the typing, is not scored.</summary>
    public decimal? Minimum { get; init; }

    /// <summary>Longest time of the sample, seconds; null if the source prints no range.</summary>
    public decimal? Maximum { get; init; }

    /// <summary>The cell in words, to name it in a message.</summary>
    public string Name => $"{Task}, {WireName.Of(Role)} hand, {WireName.Of(Sex)}, {AgeMin} to {AgeMax} years";
}
