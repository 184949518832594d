using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>What an entry of the answer says.</summary>
/// <param name="Status">HTTP status.</param>
/// <param name="Version">Version that was read or written; null where there is none.</param>
/// <param name="Json">Resource to return, as JSON; null for none.</param>
/// <param name="Outcome">Outcome to return; null for none.</param>
internal sealed record EntryAnswer(int Status, StoredResource? Version = null, string? Json = null, OperationOutcome? Outcome = null);
