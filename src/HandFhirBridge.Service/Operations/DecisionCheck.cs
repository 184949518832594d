using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Pipeline;

namespace HandFhirBridge.Service.Operations;

/// <summary>What a person must say with every decision.</summary>
internal static class DecisionCheck
{
    /// <summary>What is wrong with reason and name.</summary>
    /// <param name="reason">Why.</param>
    /// <param name="by">Who.</param>
    /// <param name="kind">Problem to report it as.</param>
    public static IEnumerable<Problem> Find(string? reason, string? by, ProblemKind kind) =>
        Find("reason", reason, Withdrawals.LongestReason, kind).Concat(Find("by", by, Withdrawals.LongestName, kind));

    private static IEnumerable<Problem> Find(string name, string? text, int most, ProblemKind kind)
    {
        if (string.IsNullOrWhiteSpace(text))
        {
            yield return kind.At($"$.{name}", $"{name} is missing or empty.");
        }
        else if (text.Trim().Length > most)
        {
            yield return kind.At($"$.{name}", $"{name} has {text.Trim().Length} characters; at most {most} are kept.");
        }
    }
}
