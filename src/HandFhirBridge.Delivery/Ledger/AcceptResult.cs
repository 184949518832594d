using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Answer of the ledger to one session. When it is <see cref="AcceptOutcome.Accepted"/>, the session is on the disk.</summary>
/// <param name="Outcome">What happened.</param>
/// <param name="Key">Which session.</param>
/// <param name="ContentHash">Hash of the content the ledger holds under this key; for a conflict it is not that of the submitted content.</param>
/// <param name="Problem">Why it was not taken; null if it was, or already had been.</param>
public sealed record AcceptResult(AcceptOutcome Outcome, SessionKey Key, string ContentHash, Problem? Problem);
