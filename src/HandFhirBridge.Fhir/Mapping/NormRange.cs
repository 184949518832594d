using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>A norm cell as the reference range of a trial.</summary>
internal static class NormRange
{
    public static Observation.ReferenceRangeComponent Map(NormComparison norm)
    {
        var cell = norm.Cell;
        var twoDeviations = 2 * cell.StandardDeviation;
        return new()
        {
            Extension = [NormSource.Exact(norm)],
            // A time is never below zero, however wide the norm.
            Low = Quantities.Seconds(Math.Max(0, cell.Mean - twoDeviations)),
            High = Quantities.Seconds(cell.Mean + twoDeviations),
            Type = Concepts.Concept(new(CodeSystems.RangeMeaning, "normal", "Normal Range")),
            AppliesTo =
            [
                Concepts.Concept(Concepts.Coded(CodeSystems.Gender, cell.Sex)),
                Concepts.Concept(Concepts.Coded(CodeSystems.HandRole, cell.Role)),
            ],
            Age = new() { Low = Quantities.Years(cell.AgeMin), High = Quantities.Years(cell.AgeMax) },
            Text = NormWording.Sentence(norm),
        };
    }
}
