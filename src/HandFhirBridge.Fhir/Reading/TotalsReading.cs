using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Checks totals and panels against the trials; they hold nothing that the trials do not.</summary>
internal sealed class TotalsReading(SessionMembers members, ObservationGate gate, Instrument instrument)
{
    private readonly SessionKeys keys = members.Keys;

    public void Check(ScoredSession scored)
    {
        foreach (var total in scored.Totals)
        {
            CheckTotal(total);
        }

        foreach (var hand in Enum.GetValues<Hand>())
        {
            CheckPanel(hand);
        }
    }

    private void CheckTotal(HandTotal total)
    {
        var identifier = keys.Total(total.TotalId, total.Hand);
        if (members.Result(IdentifierSystems.Total, identifier) is not { } observation)
        {
            return;
        }

        var place = gate.Enter(observation, identifier, MeasureCodes.Total(total.TotalId, total.Hand));
        HandSite.Check(observation.BodySite, total.Hand, place.At("bodySite"));
        if (total.Seconds is null && observation.Value is not null)
        {
            place.At("value").Contradicts(Elements.Shown(observation.Value), $"{string.Join(", ", total.MissingTasks)} were not completed");
        }
        else if (total.Seconds is { } seconds && Elements.Number(observation.Value, Quantities.Second, place.At("value")) is { } stated
            && (stated != seconds || (observation.Value as Quantity)?.Comparator is not null))
        {
            place.At("value").Contradicts(Elements.Shown(observation.Value), FormattableString.Invariant($"the trials add up to {seconds}"));
        }

        var tasks = instrument.Totals.Single(t => t.Id == total.TotalId).Tasks;
        members.CheckPoints(observation.DerivedFrom, tasks.Select(task => keys.Trial(task, total.Hand)), place.At("derivedFrom"));
    }

    private void CheckPanel(Hand hand)
    {
        if (members.Result(IdentifierSystems.Panel, keys.Panel(hand)) is not { } observation)
        {
            return;
        }

        var place = gate.Enter(observation, keys.Panel(hand), MeasureCodes.Panel(hand));
        HandSite.Check(observation.BodySite, hand, place.At("bodySite"));
        var expected = instrument.Tasks.Select(task => keys.Trial(task.Id, hand)).Concat(instrument.Totals.Select(total => keys.Total(total.Id, hand)));
        members.CheckPoints(observation.HasMember, expected, place.At("hasMember"));
    }
}
