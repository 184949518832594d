namespace HandFhirBridge.Service.Http;

/// <summary>Chooses among the held and failed sessions; what is null does not choose.</summary>
/// <param name="State"><c>held</c> or <c>failed</c>.</param>
/// <param name="Code">Code of what stands in the way.</param>
/// <param name="Site">Clinic.</param>
/// <param name="Target">Name of the target.</param>
public sealed record RetryFilter(string? State, string? Code, string? Site, string? Target);
