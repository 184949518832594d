using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>The store cannot be used at present; nothing was half written. The problem says why and what to do.</summary>
public sealed class LedgerException : Exception
{
    /// <summary>With what stands in the way.</summary>
    public LedgerException(Problem problem, Exception? cause = null)
        : base(problem?.ToString(), cause) => Problem = problem ?? throw new ArgumentNullException(nameof(problem));

    /// <summary>What stands in the way.</summary>
    public Problem Problem { get; }
}
