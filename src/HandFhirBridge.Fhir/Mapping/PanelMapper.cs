using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Trials and totals of one hand, grouped.</summary>
internal static class PanelMapper
{
    public static Observation Map(SessionContext context, Hand hand)
    {
        var observation = ObservationFrame.Create(
            context, Canonicals.Panel, IdentifierSystems.Panel, context.Keys.Panel(hand),
            InstrumentWords.Panel(hand), context.Session.StartedAt);
        observation.BodySite = ObservationFrame.BodySite(context, hand);
        observation.HasMember.AddRange(context.Instrument.Tasks.Select(task => context.Trial(task.Id, hand)));
        observation.HasMember.AddRange(context.Instrument.Totals.Select(total => context.Total(total.Id, hand)));
        observation.Text = PanelNarrative.Of(context, hand);
        return observation;
    }
}
