using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>A view that cannot be run, or a resource that does not fit it; the problem says which and why.</summary>
public sealed class ViewException : OutcomeException
{
    /// <summary>With what stands in the way.</summary>
    public ViewException(Problem problem, Exception? cause = null)
        : base(problem, cause)
    {
    }
}
