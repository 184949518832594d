namespace HandFhirBridge.Delivery.Ledger;

/// <summary>The revision of a session that a withdrawal is made of: the last that may be in a chart, else the last accepted.</summary>
/// <param name="Entry">What the ledger shows of it.</param>
/// <param name="Payload">What it holds.</param>
/// <param name="Next">Revision that the withdrawal becomes.</param>
public sealed record StandingRevision(LedgerEntry Entry, LedgerPayload Payload, int Next);
