using HandFhirBridge.Assessment.Scoring;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Narrative of a total.</summary>
internal static class TotalNarrative
{
    public static Narrative Of(SessionContext context, HandTotal total) => Xhtml.Narrative(
    [
        .. Banner.Of(context),
        Xhtml.Paragraph($"{Displays.Total(total.TotalId)}, {Wording.Hand(total.Hand, total.Role)}: {TotalWording.Result(context, total)}"),
        .. total.NormMean is { } mean ? [Xhtml.Paragraph(TotalWording.NormMean(context, total, mean))] : Array.Empty<System.Xml.Linq.XElement>(),
    ]);
}
