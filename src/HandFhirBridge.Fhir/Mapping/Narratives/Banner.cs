using System.Xml.Linq;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Marks at the top of a narrative.</summary>
internal static class Banner
{
    /// <summary>That a session serves demonstration only, and that it corrects an earlier version.</summary>
    public static IEnumerable<XElement> Of(SessionContext context)
    {
        if (context.Scored.Demonstration)
        {
            yield return Xhtml.Strong(Wording.Demonstration);
        }

        if (context.IsCorrection)
        {
            yield return Xhtml.Strong($"Corrected: revision {context.Session.Revision} of this session.");
        }
    }
}
