namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Which instrument was given, in which version of its definition.</summary>
/// <param name="Id">Id of the definition, for example <c>seven-task</c>.</param>
/// <param name="Version">Version of the definition.</param>
public sealed record InstrumentReference(string Id, string Version);
