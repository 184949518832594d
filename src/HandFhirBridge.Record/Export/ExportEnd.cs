using HandFhirBridge.Record.Http;

namespace HandFhirBridge.Record.Export;

/// <summary>How an export ended.</summary>
/// <param name="Files">Its files; empty if it failed.</param>
/// <param name="Failure">Why it failed; null if it did not.</param>
/// <param name="Expires">When it goes.</param>
internal sealed record ExportEnd(IReadOnlyList<ExportFile> Files, RecordRefusal? Failure, DateTimeOffset Expires);
