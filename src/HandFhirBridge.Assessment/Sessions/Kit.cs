namespace HandFhirBridge.Assessment.Sessions;

/// <summary>The box of materials used, where a clinic tells its kits apart.</summary>
/// <param name="Name">What the clinic calls it.</param>
/// <param name="SerialNumber">Serial or inventory number; null if it has none.</param>
public sealed record Kit(string Name, string? SerialNumber);
