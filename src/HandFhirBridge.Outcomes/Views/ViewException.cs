using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>A view that cannot be run, or a resource that does not fit it; the problem says which and why.</summary>
public sealed class ViewException : Exception
{
    /// <summary>With what stands in the way.</summary>
    public ViewException(Problem problem, Exception? cause = null)
        : base(problem?.ToString(), cause) => Problem = problem ?? throw new ArgumentNullException(nameof(problem));

    /// <summary>What stands in the way.</summary>
    public Problem Problem { get; }
}
