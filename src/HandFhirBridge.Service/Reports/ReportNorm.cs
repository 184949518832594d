using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Reports;

/// <summary>A norm beside a time, never without how it was obtained.</summary>
/// <param name="Sex">Sex the norm is for.</param>
/// <param name="AgeMin">Youngest age, years.</param>
/// <param name="AgeMax">Oldest age, years.</param>
/// <param name="Mean">Mean, seconds.</param>
/// <param name="StandardDeviation">SD, seconds.</param>
/// <param name="Set">Norm set id and version.</param>
/// <param name="Evidence">How it was obtained.</param>
public sealed record ReportNorm(
    SexForNorm Sex, int AgeMin, int AgeMax, decimal Mean, decimal StandardDeviation, string Set, Evidence Evidence)
{
    /// <summary>Mean − 2 SD, not below 0.</summary>
    public decimal Low => Math.Max(0, Mean - (2 * StandardDeviation));

    /// <summary>Mean + 2 SD: slower than this is slow.</summary>
    public decimal High => Mean + (2 * StandardDeviation);

    /// <summary>The norm a time was compared with.</summary>
    internal static ReportNorm Of(NormComparison norm) => new(
        norm.Cell.Sex, norm.Cell.AgeMin, norm.Cell.AgeMax, norm.Cell.Mean, norm.Cell.StandardDeviation,
        $"{norm.NormSetId} {norm.NormSetVersion}", norm.Cell.Evidence);
}
