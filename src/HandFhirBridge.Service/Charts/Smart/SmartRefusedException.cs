using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Charts.Smart;

/// <summary>Carries an expected failure of a sign-in through the framework's handler, which knows exceptions only.</summary>
/// <param name="problem">What went wrong.</param>
internal sealed class SmartRefusedException(Problem problem) : Exception(problem.Message)
{
    /// <summary>What went wrong.</summary>
    public Problem Problem { get; } = problem;
}
