namespace HandFhirBridge.Record.Export;

/// <summary>A file of an export.</summary>
/// <param name="Kind">Array of the manifest that lists it: <c>output</c>, <c>deleted</c> or <c>error</c>.</param>
/// <param name="Type">Resource type of its lines.</param>
/// <param name="Name">Name in the export's folder.</param>
/// <param name="Count">Lines.</param>
internal sealed record ExportFile(string Kind, string Type, string Name, long Count);
