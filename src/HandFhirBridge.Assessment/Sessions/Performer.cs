namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Who gave the test.</summary>
/// <param name="Identifier">Staff or licence identifier.</param>
/// <param name="Name">Name as it shall be shown.</param>
/// <param name="Role">Capacity.</param>
public sealed record Performer(BusinessIdentifier Identifier, string Name, PerformerRole Role);
