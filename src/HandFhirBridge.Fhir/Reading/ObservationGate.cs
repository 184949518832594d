using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>What is checked of every observation of a session before anything is read from it.</summary>
internal sealed class ObservationGate(SharedFacts shared, List<Problem> problems)
{
    /// <summary>Checks soundness, patient, performer and encounter; gives the place of the observation.</summary>
    public Place Enter(Observation observation, string identifier)
    {
        var place = Place.Of(problems, observation, identifier);
        Soundness.Check(observation, place);
        shared.Check(observation.Subject, observation.Performer.FirstOrDefault(), observation.Encounter, place);
        return place;
    }

    /// <summary>The same for an observation that measures a hand: its code must be <paramref name="code"/>.</summary>
    public Place Enter(Observation observation, string identifier, string code)
    {
        var place = Enter(observation, identifier);
        if (Elements.Code(observation.Code, CodeSystems.Measure, place.At("code")) is { } found && found != code)
        {
            place.At("code").Contradicts(found, $"its identifier is that of {code}");
        }

        return place;
    }
}
