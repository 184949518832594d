using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Faults.Tests.Fuzzing;

/// <summary>What a refusal must and must not say.</summary>
internal static partial class Refusal
{
    /// <summary>Null if all is well.</summary>
    public static string? Fault(IReadOnlyCollection<Problem> problems)
    {
        if (!problems.Any(p => p.Severity == Severity.Error))
        {
            return "refused without an error";
        }

        return problems.Where(p => !Code().IsMatch(p.Code) || p.Message.Length == 0 || p.Remedy.Length == 0 || ShowsInside(p.ToString()))
            .Select(p => p.ToString()).FirstOrDefault();
    }

    /// <summary>True if a text shows a stack trace or the name of an exception.</summary>
    public static bool ShowsInside(string text) => Inside().IsMatch(text);

    public static bool IsCode(string? text) => text is not null && Code().IsMatch(text);

    [GeneratedRegex(@"^HFB\d{4}$")]
    private static partial Regex Code();

    [GeneratedRegex(@"\n\s+at \w|\bat (System|Microsoft|HandFhirBridge|Hl7)\.|[a-z]Exception\b|\.cs:line")]
    private static partial Regex Inside();
}
