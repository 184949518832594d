using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads handedness, attempts and kit.</summary>
internal sealed class ObservationsReading(
    SessionMembers members, ObservationGate gate, Instrument instrument, QuestionnaireResponse response, List<Problem> problems)
{
    public Dominance? Dominance()
    {
        if (members.Result(IdentifierSystems.Dominance, members.Keys.Session) is not { } observation)
        {
            return null;
        }

        var place = gate.Enter(observation, members.Keys.Session);
        if (!observation.Code.Coding.Any(c => (c.System, c.Code) is (CodeSystems.Snomed, SnomedCodes.HandednessQuestion)
            or (CodeSystems.Measure, MeasureCodes.Handedness)))
        {
            place.At("code").NotUnderstood(Elements.Shown(observation.Code), "the question about handedness");
        }

        return DominanceReading.Read(observation, place);
    }

    /// <summary>Every attempt that could be read, as they ran.</summary>
    public ImmutableArray<ReadAttempt> Attempts()
    {
        var counted =
            from task in instrument.Tasks
            from hand in Enum.GetValues<Hand>()
            let observation = members.Result(IdentifierSystems.Trial, members.Keys.Trial(task.Id, hand))
            where observation is not null
            select Counted(observation, task.Id, hand);
        return [.. counted.Concat(members.Uncounted().Select(Uncounted)).OfType<ReadAttempt>().OrderBy(a => a.RunOrder)];
    }

    /// <summary>Notes a gap: an attempt that does not count is in no list and would be lost without anybody noticing.</summary>
    public void CheckRunOrder(ImmutableArray<ReadAttempt> attempts)
    {
        if (problems.Count == 0 && !attempts.Select(a => a.RunOrder).SequenceEqual(Enumerable.Range(1, attempts.Length)))
        {
            var found = string.Join(", ", attempts.Select(a => a.RunOrder.ToString(CultureInfo.InvariantCulture)));
            Place.Of(problems, members.Report, members.Keys.Session).Add(
                ReadingProblems.ResourceMissing, $"has attempts with the places {found} in the order run; each from 1 on should be there once.", found);
        }
    }

    /// <summary>The kit all attempts were given with; null if none names one.</summary>
    public Kit? Kit(ImmutableArray<ReadAttempt> attempts)
    {
        var devices = attempts.Select(a => (a.Place, a.Observation.Device)).ToList();
        var first = devices.Select(d => d.Device).FirstOrDefault();
        if (devices.Find(d => (d.Device?.Reference, d.Device?.Display) != (first?.Reference, first?.Display)) is { Place.Problems: not null } other)
        {
            other.Place.At("device").Contradicts(Named(other.Device), $"the first trial was given with {Named(first) ?? "none"}");
        }

        if (first is null || members.Resolve<Device>(first, attempts[0].Place.At("device")) is not { } kit)
        {
            return null;
        }

        // The name as it was on the day: a kit is shared by sessions and may have been renamed since.
        return (first.Display ?? kit.DeviceName.FirstOrDefault()?.Name) is { } name ? new(name, kit.SerialNumber) : null;
    }

    private static string? Named(ResourceReference? device) => device is null ? null : $"{device.Display} ({device.Reference})";

    private ReadAttempt? Counted(Observation observation, string task, Hand hand)
    {
        var place = Enter(observation, members.Keys.Trial(task, hand), MeasureCodes.Trial(task, hand));
        return AttemptReading.Read(observation, task, hand, counted: true, place);
    }

    private ReadAttempt? Uncounted(Observation observation)
    {
        var value = SessionMembers.IdentifierOf(observation)!.Value.Value;
        // site / session / task / hand / n
        if (value.Split('/') is not [_, _, var task, var side, _] || instrument.FindTask(task) is null || WireName.Find<Hand>(side) is not { } hand)
        {
            gate.Enter(observation, value).At("identifier.value").NotUnderstood(value, "site, session, task, hand and number of an attempt");
            return null;
        }

        var place = Enter(observation, value, MeasureCodes.UncountedAttempt(task, hand));
        var counted = members.Resolve<Observation>(
            Elements.Extension<ResourceReference>(observation, Extensions.CountedTrial, place), place.At($"extension('{Extensions.CountedTrial}')"));
        if (counted is not null && SessionMembers.IdentifierOf(counted)?.Value != members.Keys.Trial(task, hand))
        {
            place.At($"extension('{Extensions.CountedTrial}')").Contradicts(counted.Id, $"the trial that counts is {members.Keys.Trial(task, hand)}");
        }

        return AttemptReading.Read(observation, task, hand, counted: false, place);
    }

    // The times mean nothing without the conditions they were taken under.
    private Place Enter(Observation observation, string identifier, string code)
    {
        var place = gate.Enter(observation, identifier, code);
        foreach (var source in observation.DerivedFrom)
        {
            var found = members.Resolve<QuestionnaireResponse>(source, place.At("derivedFrom"));
            if (found is not null && !ReferenceEquals(found, response))
            {
                place.At("derivedFrom").Contradicts(source.Reference, "the report names another set-up response");
            }
        }

        return place;
    }
}
