namespace HandFhirBridge.Fhir.Mapping;

/// <summary>One condition under which a session was given.</summary>
/// <param name="What">Its name in plain words.</param>
/// <param name="How">How it was.</param>
public sealed record TestCondition(string What, string How);
