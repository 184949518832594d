using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Output;

/// <summary>A problem as the command line prints it with <c>--format json</c>.</summary>
/// <param name="Code">Stable code.</param>
/// <param name="Severity"><c>error</c>, <c>warning</c> or <c>information</c>.</param>
/// <param name="Source">File, or <c>stdin</c>; null for input without one.</param>
/// <param name="Line">1-based line or row; null where the whole file is meant.</param>
/// <param name="Column">CSV column; null for other formats.</param>
/// <param name="Location">JSON path or FHIRPath.</param>
/// <param name="Message">What is wrong.</param>
/// <param name="Found">Value as written.</param>
/// <param name="Remedy">What to do.</param>
public sealed record ProblemJson(
    string Code, Severity Severity, string? Source, long? Line, string? Column, string Location, string Message, string? Found, string Remedy)
{
    /// <summary>The printable form of <paramref name="problem"/>.</summary>
    public static ProblemJson Of(Problem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        return new(
            problem.Code, problem.Severity, problem.Place?.Source, problem.Place?.Line, problem.Place?.Column,
            problem.Location, problem.Message, problem.Found, problem.Remedy);
    }
}
