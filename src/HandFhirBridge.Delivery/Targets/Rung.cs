namespace HandFhirBridge.Delivery.Targets;

/// <summary>A way of writing a session, the best first. The numbers are kept in the ledger.</summary>
public enum Rung
{
    /// <summary>One transaction of updates under our own ids (update as create).</summary>
    TransactionOfUpdates = 1,

    /// <summary>One transaction of conditional creates; the target gives the ids.</summary>
    TransactionOfConditionalCreates = 2,

    /// <summary>One resource after the other, each looked for before it is created.</summary>
    SingleWrites = 3,

    /// <summary>Observations one after the other, and the report as a document.</summary>
    ObservationsAndDocument = 4,

    /// <summary>The report as a document and nothing else.</summary>
    DocumentAlone = 5,
}
