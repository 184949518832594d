using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Narrative of the handedness.</summary>
internal static class DominanceNarrative
{
    public static Narrative Of(SessionContext context) =>
        Xhtml.Narrative([.. Banner.Of(context), Xhtml.Paragraph(Sentence(context.Session.Dominance))]);

    /// <summary>Handedness, how it is known, and the quotient if measured.</summary>
    public static string Sentence(Dominance dominance)
    {
        var quotient = dominance.LateralityQuotient is { } measured
            ? string.Create(CultureInfo.InvariantCulture, $"; laterality quotient {measured} (-100 all left, +100 all right)")
            : "";
        var howKnown = PlainWords.Lower(Displays.Of(CodeSystems.DominanceSource, WireName.Of(dominance.HowKnown))!);
        return $"Handedness: {PlainWords.Handedness(dominance)} ({howKnown}){quotient}.";
    }
}
