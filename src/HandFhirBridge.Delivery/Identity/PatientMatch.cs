using System.Collections.Immutable;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>The one chart that a session belongs to, found at the moment of sending.</summary>
/// <param name="Id">Logical id at the target.</param>
/// <param name="VersionId">Version that was compared; null if the target gives none.</param>
/// <param name="ReplacedIds">Charts that were replaced by this one on the way to it; empty as a rule.</param>
public sealed record PatientMatch(string Id, string? VersionId, ImmutableArray<string> ReplacedIds)
{
    /// <summary><c>Patient/id</c>.</summary>
    public string Reference => $"Patient/{Id}";
}
