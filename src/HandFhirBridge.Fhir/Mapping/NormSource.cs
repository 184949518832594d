using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Where a norm is from: no norm is shown without it.</summary>
internal static class NormSource
{
    /// <summary>On a report: set, version, source, evidence.</summary>
    public static Extension Set(NormComparison norm) => new()
    {
        Url = Extensions.NormSource,
        Extension =
        [
            new(NormSourceParts.NormSet, new FhirString(norm.NormSetId)),
            new(NormSourceParts.Version, new FhirString(norm.NormSetVersion)),
            new(NormSourceParts.Source, new FhirString(norm.Cell.Source)),
            new(NormSourceParts.Evidence, new Code(WireName.Of(norm.Cell.Evidence))),
            new(NormSourceParts.DemonstrationOnly, new FhirBoolean(norm.DemonstrationOnly)),
        ],
    };

    /// <summary>On a reference range: also mean and SD, so that reading back needs no arithmetic on rounded limits.</summary>
    public static Extension Exact(NormComparison norm)
    {
        var source = Set(norm);
        var cell = norm.Cell;
        source.Extension.Add(new(NormSourceParts.Mean, new FhirDecimal(cell.Mean)));
        source.Extension.Add(new(NormSourceParts.StandardDeviation, new FhirDecimal(cell.StandardDeviation)));
        if (cell.N is { } size)
        {
            source.Extension.Add(new(NormSourceParts.SampleSize, new PositiveInt(size)));
        }

        if (cell.Note is { } note)
        {
            source.Extension.Add(new(NormSourceParts.Note, new FhirString(note)));
        }

        return source;
    }
}
