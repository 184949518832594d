using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Components of an observation by our code.</summary>
internal sealed class Components(Observation observation, Place place)
{
    private readonly ILookup<string?, DataType?> values = observation.Component.ToLookup(
        c => c.Code?.Coding.FirstOrDefault(coding => coding.System == CodeSystems.Component)?.Code, c => c.Value);

    /// <summary>Where a component stands.</summary>
    public Place PlaceOf(string code) => place.At($"component.where(code.coding.code = '{code}').value");

    /// <summary>The value of the one component of this code; null if there is none.</summary>
    public DataType? Value(string code)
    {
        var found = values[code].ToList();
        if (found.Count > 1)
        {
            PlaceOf(code).NotUnderstood($"{found.Count} values", "one value");
        }

        return found.FirstOrDefault();
    }

    /// <summary>A required member.</summary>
    public T? Member<T>(string code, string system)
        where T : struct, Enum => Elements.Member<T>(Value(code) as CodeableConcept, system, PlaceOf(code));

    /// <summary>Codes of a component that may repeat, in their order.</summary>
    public IEnumerable<string> Codes(string code, string system) =>
        values[code].Select(value => Elements.Code(value as CodeableConcept, system, PlaceOf(code))).OfType<string>();
}
