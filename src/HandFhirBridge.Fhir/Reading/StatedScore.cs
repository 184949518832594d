using System.Globalization;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Compares the score in an Observation with what its time and norm give.</summary>
internal static class StatedScore
{
    public static void Check(ScoredTrial scored, ReadAttempt stated)
    {
        var components = new Components(stated.Observation, stated.Place);
        Same(components, ComponentCodes.ZScore, Quantities.Score, scored.Score?.Z);
        Same(components, ComponentCodes.PercentOfNorm, Quantities.Percent, scored.Score?.PercentOfMean);
        var expected = scored.Score?.Judgement switch
        {
            Judgement.Slow => "H",
            Judgement.WithinNorm => "N",
            _ => null,
        };
        var judged = stated.Observation.Interpretation.SelectMany(i => i.Coding)
            .Where(c => c.System == CodeSystems.Interpretation && c.Code != ">").Select(c => c.Code).ToList();
        if (!judged.SequenceEqual(expected is null ? [] : [expected]))
        {
            stated.Place.At("interpretation").Contradicts(string.Join(", ", judged), $"time and norm give {expected ?? "no judgement"}");
        }
    }

    private static void Same(Components components, string code, string unit, decimal? expected)
    {
        var place = components.PlaceOf(code);
        var value = components.Value(code);
        var wanted = expected is { } number ? number.ToString(CultureInfo.InvariantCulture) : "none";
        if (value is null ? expected is not null : Elements.Number(value, unit, place) != expected)
        {
            place.Contradicts(Elements.Shown(value), $"time and norm give {wanted}");
        }
    }
}
