using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Rows that cannot be made, written or asked for; the problem says why.</summary>
public sealed class RowException : OutcomeException
{
    /// <summary>With what stands in the way.</summary>
    public RowException(Problem problem, Exception? cause = null)
        : base(problem, cause)
    {
    }

    internal static RowException Unreadable(GatheredLine line, Exception cause) => new(
        RowProblems.LineUnreadable.At("", $"Line {line.Number} of {line.Source}/{line.File} in the gathered set cannot be read."), cause);
}
