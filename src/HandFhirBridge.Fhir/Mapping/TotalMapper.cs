using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>A total of one hand: the whole sum, or the tasks that are missing; never a part of it.</summary>
internal static class TotalMapper
{
    public static Observation Map(SessionContext context, HandTotal total)
    {
        var observation = ObservationFrame.Create(
            context, Canonicals.Total, IdentifierSystems.Total, context.Keys.Total(total.TotalId, total.Hand),
            InstrumentWords.Total(total.TotalId, total.Hand),
            context.Session.StartedAt);
        observation.BodySite = ObservationFrame.BodySite(context, total.Hand);
        var tasks = context.Instrument.Totals.Single(t => t.Id == total.TotalId).Tasks;
        observation.DerivedFrom.AddRange(tasks.Select(task => context.Trial(task, total.Hand)));
        if (total.Seconds is { } seconds)
        {
            observation.Value = Quantities.Seconds(seconds);
        }
        else
        {
            ObservationFrame.Cancel(observation, Concepts.Absent("not-performed", "Not Performed", TotalWording.WhyMissing(context, total)));
        }

        if (total.NormMean is { } mean)
        {
            observation.Note.Add(new Annotation { Text = TotalWording.NormMean(context, total, mean) });
        }

        observation.Text = TotalNarrative.Of(context, total);
        return observation;
    }
}
