using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads a counted trial or an attempt that does not count.</summary>
internal static class AttemptReading
{
    /// <summary>The attempt, or null if something that must be known is not; that was noted.</summary>
    /// <param name="observation">The resource.</param>
    /// <param name="task">Task that its code and identifier name.</param>
    /// <param name="hand">Hand that its code and identifier name.</param>
    /// <param name="counted">Whether it counts.</param>
    /// <param name="place">Where it stands.</param>
    public static ReadAttempt? Read(Observation observation, string task, Hand hand, bool counted, Place place)
    {
        HandSite.Check(observation.BodySite, hand, place.At("bodySite"));
        var components = new Components(observation, place);
        var runOrder = Elements.Extension<PositiveInt>(observation, Extensions.RunOrder, place)?.Value;
        var role = components.Member<HandRole>(ComponentCodes.HandRole, CodeSystems.HandRole);
        var began = Elements.Moment(observation.Effective, place.At("effective"));
        var notJudged = Optional<NoJudgement>(observation, Extensions.NotJudged, place);
        var norms = Norms(observation, task, place);
        if (OutcomeReading.Read(observation, place) is not { } result || runOrder is null || role is null || began is null)
        {
            return null;
        }

        ImmutableArray<string> departures = [.. components.Codes(ComponentCodes.Departure, CodeSystems.Departure)];
        var trial = new Trial(
            task, hand, result.Outcome, result.Seconds, began, Optional<TimeSource>(observation, Extensions.TimeSource, place),
            counted, departures, result.Reason, Note(observation, place));
        return new(observation, place, trial, runOrder.Value, role.Value, norms, notJudged);
    }

    private static T? Optional<T>(Observation observation, string url, Place place)
        where T : struct, Enum =>
        Elements.Extension<Code>(observation, url, place, required: false)?.Value is { } code
            ? Elements.Member<T>(code, place.At($"extension('{url}').value"))
            : null;

    private static ImmutableArray<NormComparison> Norms(Observation observation, string task, Place place) =>
    [
        .. observation.ReferenceRange.Select(range => NormReading.Read(range, task, place.At("referenceRange"))).OfType<NormComparison>(),
    ];

    // Others may add notes to a result; they sign theirs.
    private static string? Note(Observation observation, Place place)
    {
        var notes = observation.Note.Where(n => n.Author is null).ToList();
        if (notes.Count > 1)
        {
            place.At("note").NotUnderstood($"{notes.Count} notes", "one note at most that nobody signed");
        }

        return notes.FirstOrDefault()?.Text;
    }
}
