using Hl7.Fhir.Specification.Source;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>The definitions of R4 4.0.1 as the SDK ships them.</summary>
internal static class Core
{
    public static CachedResolver Source { get; } = new(ZipSource.CreateValidationSource());
}
