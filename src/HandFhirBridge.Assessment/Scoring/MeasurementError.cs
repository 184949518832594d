using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Measurement error of one task or total in one named population.</summary>
/// <param name="Subject">Task id or total id; a six-task and a seven-task total are two subjects.</param>
/// <param name="Role">Hand role it was measured for; null for both.</param>
/// <param name="Population">Whom it was measured on.</param>
/// <param name="StandardErrorOfMeasurement">SEM in seconds, greater than 0.</param>
/// <param name="Level">Confidence level in percent, 90 or 95; anything else throws.</param>
/// <param name="Source">Citation.</param>
public sealed record MeasurementError(
    string Subject, HandRole? Role, string Population, decimal StandardErrorOfMeasurement, int Level, string Source)
{
    private const decimal SquareRootOfTwo = 1.4142135623730950488016887242m;

    /// <summary>SEM in seconds, greater than 0.</summary>
    public decimal StandardErrorOfMeasurement { get; init; } = StandardErrorOfMeasurement > 0
        ? StandardErrorOfMeasurement
        : throw new ArgumentOutOfRangeException(nameof(StandardErrorOfMeasurement), StandardErrorOfMeasurement, "The SEM is greater than 0.");

    /// <summary>Confidence level in percent, 90 or 95.</summary>
    public int Level { get; init; } = Level is 90 or 95
        ? Level
        : throw new ArgumentOutOfRangeException(nameof(Level), Level, "The level is 90 or 95.");

    /// <summary>Instrument it was measured with; null for any instrument that has the subject.</summary>
    public string? Instrument { get; init; }

    /// <summary>
    /// Two-sided multiplier of the normal distribution: 1.96 at 95 %, 1.645 at 90 %. Some authors use 1.65 at 90 %
    /// (Kim JK et al. Clin Orthop Relat Res 2014;472:2536-2541).
    /// </summary>
    public decimal Multiplier => Level == 95 ? 1.96m : 1.645m;

    /// <summary>
    /// Minimal detectable change in seconds to be shown, rounded to 2 decimals: multiplier · √2 · SEM
    /// (Weir JP, J Strength Cond Res 2005;19:231-240; formula from memory of the paper).
    /// </summary>
    public decimal MinimalDetectableChange => decimal.Round(Threshold, 2, MidpointRounding.AwayFromZero);

    private decimal Threshold => Multiplier * SquareRootOfTwo * StandardErrorOfMeasurement;

    /// <summary>True if a change is larger than the minimal detectable change, either way; decided on the unrounded threshold.</summary>
    /// <param name="seconds">Later minus earlier.</param>
    public bool IsExceededBy(decimal seconds) => Math.Abs(seconds) > Threshold;

    /// <summary>SEM = SD · √(1 − ICC), in seconds.</summary>
    /// <param name="standardDeviation">SD of the population, seconds, greater than 0.</param>
    /// <param name="icc">Test-retest intraclass correlation of the same population, from 0 to below 1.</param>
    public static decimal SemOf(decimal standardDeviation, decimal icc)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(standardDeviation);
        ArgumentOutOfRangeException.ThrowIfLessThan(icc, 0);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(icc, 1);
        return standardDeviation * (decimal)Math.Sqrt((double)(1 - icc));
    }
}
