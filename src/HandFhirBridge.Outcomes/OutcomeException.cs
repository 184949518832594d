using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes;

/// <summary>Outcomes cannot be gathered, made rows of, asked for or given; the problem says why.</summary>
public abstract class OutcomeException : Exception
{
    /// <summary>With what stands in the way.</summary>
    protected OutcomeException(Problem problem, Exception? cause)
        : base(problem?.ToString(), cause) => Problem = problem ?? throw new ArgumentNullException(nameof(problem));

    /// <summary>What stands in the way.</summary>
    public Problem Problem { get; }
}
