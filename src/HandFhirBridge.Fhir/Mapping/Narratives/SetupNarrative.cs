using System.Xml.Linq;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Narrative of the set-up response.</summary>
internal static class SetupNarrative
{
    public static Narrative Of(SessionContext context) => Xhtml.Narrative(
    [
        .. Banner.Of(context),
        Xhtml.Table($"Set-up of the {PlainWords.Lower(context.Instrument.Title)} on {PlainWords.Moment(context.Session.StartedAt)}",
            ["What", "How it was"], SetupRows.Of(context.Session, context.Words)),
        .. Comment(context),
    ]);

    /// <summary>The therapist's remarks on the whole, if any.</summary>
    public static IEnumerable<XElement> Comment(SessionContext context) =>
        context.Session.Comment is { } comment ? [Xhtml.Paragraph($"Comment: {comment}")] : [];
}
