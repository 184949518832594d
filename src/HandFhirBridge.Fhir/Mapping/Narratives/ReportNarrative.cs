using System.Globalization;
using System.Xml.Linq;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>The report as a reader without any software of ours sees it: who, what, against which norm, and what limits it.</summary>
internal static class ReportNarrative
{
    public static Narrative Of(SessionContext context)
    {
        var session = context.Session;
        return Xhtml.Narrative(
        [
            .. Banner.Of(context),
            Xhtml.Heading(context.Instrument.Title),
            Xhtml.Paragraph(Who(session)),
            Xhtml.Paragraph(DominanceNarrative.Sentence(session.Dominance)),
            Xhtml.Table("Trials", ReportRows.TrialHeadings, ReportRows.Trials(context)),
            .. Uncounted(context),
            Xhtml.Table("Totals", ["Total", "Hand", "Result", "Norm"], ReportRows.Totals(context)),
            .. Differences(context),
            Xhtml.Table("Set-up and precautions", ["What", "How it was"], SetupRows.Of(context.Session, context.Words)),
            .. SetupNarrative.Comment(context),
            .. Sources(context.Scored).Select(Xhtml.Paragraph),
            Xhtml.Paragraph(Conclusion.Of(context)),
        ]);
    }

    private static string Who(Session session) => string.Create(
        CultureInfo.InvariantCulture,
        $"Patient {session.Patient.FamilyName}, born {session.Patient.BirthDate:yyyy-MM-dd}, identifier {session.Patient.Identifier.Value}, "
        + $"{session.AgeInYears} years old on the day of the test. Tested by {session.Performer.Name} "
        + $"from {PlainWords.Moment(session.StartedAt)} to {PlainWords.Moment(session.EndedAt)}.");

    private static IEnumerable<XElement> Uncounted(SessionContext context) => context.Scored.Trials.All(t => t.Trial.Counted)
        ? []
        : [Xhtml.Table("Attempts that do not count", ["Task", "Hand", "Result", "Departures and notes"], ReportRows.Uncounted(context))];

    private static IEnumerable<XElement> Differences(SessionContext context) => context.Scored.Differences.All(d => d.Seconds is null)
        ? []
        : [Xhtml.Table("Difference between the hands (non-dominant minus dominant)", ["Task or total", "Seconds"], ReportRows.Differences(context))];

    private static IEnumerable<string> Sources(ScoredSession scored) => scored.Trials.SelectMany(t => t.Norms)
        .Select(norm => PlainWords.Sentence($"{norm.NormSetId} version {norm.NormSetVersion}: {norm.Cell.Source}{(norm.Cell.Note is { } note ? $"; note: {note}" : "")}"))
        .Distinct();
}
