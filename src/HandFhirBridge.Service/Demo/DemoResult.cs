namespace HandFhirBridge.Service.Demo;

/// <summary>What a demonstration came to.</summary>
/// <param name="Accepted">Sessions committed to the ledger.</param>
/// <param name="Delivered">Sessions the record keeps.</param>
/// <param name="Held">Sessions that wait for a person.</param>
/// <param name="Rejected">Sessions refused before the ledger.</param>
/// <param name="Resources">Resources by type, counted in the record.</param>
/// <param name="ElapsedMs">From start to the last delivery, milliseconds.</param>
public sealed record DemoResult(
    int Accepted, int Delivered, int Held, int Rejected, IReadOnlyDictionary<string, int> Resources, long ElapsedMs);
