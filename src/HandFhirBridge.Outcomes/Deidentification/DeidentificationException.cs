using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Identities cannot be removed, so nothing leaves; the problem says why.</summary>
public sealed class DeidentificationException : OutcomeException
{
    /// <summary>With what stands in the way.</summary>
    public DeidentificationException(Problem problem, Exception? cause = null)
        : base(problem, cause)
    {
    }
}
