using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;
using Evidence = HandFhirBridge.Assessment.Norms.Evidence;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Parts of the source of a norm.</summary>
internal readonly struct NormParts(Extension source, Place place)
{
    public string? Text(string part, bool required = true) => Elements.Extension<FhirString>(source, part, place, required)?.Value;

    public decimal? Number(string part) => Elements.Extension<FhirDecimal>(source, part, place)?.Value;

    /// <summary>Size of the sample; null if not known.</summary>
    public int? Size() => Elements.Extension<PositiveInt>(source, NormSourceParts.SampleSize, place, required: false)?.Value;

    public bool? DemonstrationOnly() => Elements.Extension<FhirBoolean>(source, NormSourceParts.DemonstrationOnly, place)?.Value;

    public Evidence? Evidence() => Elements.Extension<Code>(source, NormSourceParts.Evidence, place)?.Value is { } code
        ? Elements.Member<Evidence>(code, place.At($"extension('{NormSourceParts.Evidence}').value"))
        : null;
}
