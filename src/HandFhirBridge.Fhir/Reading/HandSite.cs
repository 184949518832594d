using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Reads which hand a body site is, in either form we write.</summary>
internal static class HandSite
{
    /// <summary>Notes a body site that is not <paramref name="hand"/>, the hand that the code names.</summary>
    public static void Check(CodeableConcept? site, Hand hand, Place place)
    {
        var code = Elements.Code(site, CodeSystems.Snomed, place);
        Hand? found = code switch
        {
            SnomedCodes.LeftHand => Hand.Left,
            SnomedCodes.RightHand => Hand.Right,
            SnomedCodes.AnyHand => Side(site!, place),
            _ => null,
        };
        if (code is not null && found != hand)
        {
            place.Contradicts(Elements.Shown(site), $"the code names the {WireName.Of(hand)} hand");
        }
    }

    private static Hand? Side(CodeableConcept site, Place place) =>
        Elements.Extension<Code>(site, Extensions.Laterality, place)?.Value is { } side ? WireName.Find<Hand>(side) : null;
}
