using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>What an accepted session holds of the patient.</summary>
/// <param name="Document">Canonical session document, byte for byte as accepted.</param>
/// <param name="Bundle">Mapped transaction, byte for byte as accepted.</param>
/// <param name="Patient">What finds the chart.</param>
public sealed record LedgerPayload(ReadOnlyMemory<byte> Document, ReadOnlyMemory<byte> Bundle, PatientIdentity Patient);
