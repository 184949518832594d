using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads a norm cell from the reference range of a trial: exactly as it was, from the extension, checked against the range shown.</summary>
internal static class NormReading
{
    public static NormComparison? Read(Observation.ReferenceRangeComponent range, string task, Place place)
    {
        if (Source(range, place) is not { } source)
        {
            return null;
        }

        var part = new NormParts(source, place.At("extension"));
        var role = AppliesTo<HandRole>(range, CodeSystems.HandRole, place);
        var sex = AppliesTo<SexForNorm>(range, CodeSystems.Gender, place);
        var (youngest, oldest) = (Years(range.Age?.Low, place.At("age.low")), Years(range.Age?.High, place.At("age.high")));
        var (mean, deviation) = (part.Number(NormSourceParts.Mean), part.Number(NormSourceParts.StandardDeviation));
        var (set, version, citation) = (part.Text(NormSourceParts.NormSet), part.Text(NormSourceParts.Version), part.Text(NormSourceParts.Source));
        if (part.Evidence() is not { } evidence || role is null || sex is null || youngest is null || oldest is null
            || mean is null || deviation is null || set is null || version is null || citation is null)
        {
            return null;
        }

        if (mean <= 0 || deviation <= 0)
        {
            place.At("extension").NotUnderstood($"mean {mean}, SD {deviation}", "a mean and an SD above zero");
            return null;
        }

        var norm = new NormComparison(set, version, new NormCell(
            task, role.Value, sex.Value, youngest.Value, oldest.Value, part.Size(), mean.Value, deviation.Value,
            evidence, citation, part.Text(NormSourceParts.Note, required: false)));
        CheckShown(range, norm, part, place);
        return norm;
    }

    private static Extension? Source(Observation.ReferenceRangeComponent range, Place place)
    {
        var found = range.Extension.Where(e => e.Url == Extensions.NormSource).ToList();
        if (found is [var one])
        {
            return one;
        }

        place.At($"extension('{Extensions.NormSource}')").NotUnderstood(found.Count == 0 ? null : $"{found.Count} sources", "one source of the norm");
        return null;
    }

    private static T? AppliesTo<T>(Observation.ReferenceRangeComponent range, string system, Place place)
        where T : struct, Enum =>
        Elements.Member<T>(range.AppliesTo.FirstOrDefault(c => c.Coding.Any(coding => coding.System == system)), system, place.At("appliesTo"));

    private static int? Years(Quantity? age, Place place)
    {
        if (Elements.Number(age, Quantities.Year, place) is not { } years)
        {
            return null;
        }

        if (decimal.IsInteger(years) && years is >= 0 and <= 200)
        {
            return (int)years;
        }

        place.NotUnderstood(Elements.Shown(age), "whole years");
        return null;
    }

    // What people see and what was computed with must be one norm.
    private static void CheckShown(Observation.ReferenceRangeComponent range, NormComparison norm, NormParts part, Place place)
    {
        var shown = NormRange.Map(norm);
        foreach (var (element, found, expected) in new[] { ("low", range.Low, shown.Low), ("high", range.High, shown.High) })
        {
            if (Elements.Number(found, Quantities.Second, place.At(element)) is { } limit && limit != expected!.Value)
            {
                place.At(element).Contradicts(Elements.Shown(found), $"mean and SD give {Elements.Shown(expected)}");
            }
        }

        if (part.DemonstrationOnly() is { } demonstration && demonstration != norm.DemonstrationOnly)
        {
            place.At("extension").Contradicts(demonstration ? "for demonstration only" : "for patients", $"its evidence is {WireName.Of(norm.Cell.Evidence)}");
        }
    }
}
