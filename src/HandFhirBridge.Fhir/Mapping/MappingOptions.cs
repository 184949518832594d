using HandFhirBridge.Assessment.Instruments;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>What a site decides about its resources.</summary>
public sealed record MappingOptions
{
    /// <summary>Version of the software that scores and maps, as its Device shows it.</summary>
    public required string SoftwareVersion { get; init; }

    /// <summary>Clinics by site id. Default: none is known.</summary>
    public SiteDirectory Sites { get; init; } = SiteDirectory.Empty;

    /// <summary>True writes SNOMED CT for hands and handedness; false writes our own codes, for sites without a licence. Default true.</summary>
    public bool SnomedLicensed { get; init; } = true;

    /// <summary>Definitions of instruments. Default: those that come with the product.</summary>
    public InstrumentLibrary Instruments { get; init; } = InstrumentLibrary.Embedded;
}
