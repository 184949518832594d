using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Narrative of the provenance.</summary>
internal static class ProvenanceNarrative
{
    public static Narrative Of(SessionContext context)
    {
        var clinic = context.Options.Sites.Find(context.Session.Site).Name ?? context.Session.Site;
        return Xhtml.Narrative(
        [
            .. Banner.Of(context),
            Xhtml.Paragraph(
                $"Session {context.Keys.Session}, revision {context.Session.Revision}: tested by {context.Session.Performer.Name} for {clinic} "
                + $"on {PlainWords.Moment(context.Session.StartedAt)}; resources made by {SoftwareDeviceMapper.Name} {context.Options.SoftwareVersion} "
                + $"on {PlainWords.Moment(context.Issued)}."),
        ]);
    }
}
