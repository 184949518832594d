namespace HandFhirBridge.Benchmarks;

/// <summary>A resource as bare SQLite holds it; null for what is not asked for.</summary>
internal sealed record BareRow(string Place, string? Clinic, string? Code, string? Time, string Json);
