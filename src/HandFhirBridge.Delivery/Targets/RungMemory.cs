namespace HandFhirBridge.Delivery.Targets;

/// <summary>The rung a target was found to take.</summary>
/// <param name="Rung">The rung.</param>
/// <param name="Since">When it was found, UTC.</param>
public sealed record RungMemory(Rung Rung, DateTimeOffset Since);
