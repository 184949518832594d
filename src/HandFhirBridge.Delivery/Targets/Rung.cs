namespace HandFhirBridge.Delivery.Targets;

/// <summary>A way of writing a session, the best first. The numbers are kept in the ledger.</summary>
public enum Rung
{
    /// <summary>One transaction of updates under our own ids (update as create).</summary>
    TransactionOfUpdates = 1,

    /// <summary>One transaction of conditional creates; the target gives the ids.</summary>
    TransactionOfConditionalCreates = 2,
}
