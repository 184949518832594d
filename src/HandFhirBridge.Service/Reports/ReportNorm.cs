using HandFhirBridge.Assessment.Norms;
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
    SexForNorm Sex, int AgeMin, int AgeMax, decimal Mean, decimal StandardDeviation, string Set, Evidence Evidence);
