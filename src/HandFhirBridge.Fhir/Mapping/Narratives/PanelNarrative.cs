using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Narrative of the panel of one hand: its times without norms, which the trials carry.</summary>
internal static class PanelNarrative
{
    public static Narrative Of(SessionContext context, Hand hand)
    {
        var role = context.Session.Dominance.RoleOf(hand);
        var trials = context.Instrument.Tasks.Select(task => new[] { task.Title, Wording.Result(context.Counted(task.Id, hand).Trial) });
        var totals = context.Scored.Totals.Where(t => t.Hand == hand)
            .Select(total => new[] { Displays.Total(total.TotalId), TotalWording.Result(context, total) });
        return Xhtml.Narrative(
        [
            .. Banner.Of(context),
            Xhtml.Table($"{context.Instrument.Title}, {Wording.Hand(hand, role)}", ["Task", "Result"], trials.Concat(totals)),
        ]);
    }
}
