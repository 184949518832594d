using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Gather;

/// <summary>A source cannot be gathered at present; what it gave before stays as it was.</summary>
public sealed class GatherException : OutcomeException
{
    /// <summary>With what stands in the way.</summary>
    public GatherException(Problem problem, Exception? cause = null)
        : base(problem, cause)
    {
    }
}
