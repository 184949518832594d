using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Measurement error of one task or total in one named population.</summary>
/// <param name="Subject">Task id or total id.</param>
/// <param name="Role">Hand role it was measured for; null for both.</param>
/// <param name="Population">Whom it was measured on.</param>
/// <param name="StandardErrorOfMeasurement">SEM in seconds, greater than 0.</param>
/// <param name="Level">Confidence level in percent, 90 or 95.</param>
/// <param name="Source">Citation.</param>
public sealed record MeasurementError(
    string Subject, HandRole? Role, string Population, decimal StandardErrorOfMeasurement, int Level, string Source)
{
    /// <summary>
    /// Minimal detectable change in seconds: z · √2 · SEM with z = 1.96 at 95 % and 1.645 at 90 %
    /// (Weir JP, J Strength Cond Res 2005;19:231-240; formula from memory of the paper).
    /// </summary>
    public decimal MinimalDetectableChange =>
        decimal.Round((decimal)((Level == 95 ? 1.96 : 1.645) * Math.Sqrt(2)) * StandardErrorOfMeasurement, 2, MidpointRounding.AwayFromZero);

    /// <summary>SEM = SD · √(1 − ICC), in seconds.</summary>
    /// <param name="standardDeviation">SD of the population, seconds, greater than 0.</param>
    /// <param name="icc">Test-retest intraclass correlation of the same population, between 0 and 1.</param>
    public static decimal SemOf(decimal standardDeviation, decimal icc)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(standardDeviation);
        ArgumentOutOfRangeException.ThrowIfLessThan(icc, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(icc, 1);
        return standardDeviation * (decimal)Math.Sqrt((double)(1 - icc));
    }
}
