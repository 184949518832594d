using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Reading;

/// <summary>Parts of the bundle that tampering takes hold of.</summary>
internal static class TamperedBundle
{
    public static DiagnosticReport Report(this Bundle bundle) => bundle.Only<DiagnosticReport>();

    public static QuestionnaireResponse Setup(this Bundle bundle) => bundle.Only<QuestionnaireResponse>();

    public static QuestionnaireResponse.ItemComponent Item(this Bundle bundle, string link) => bundle.Setup().Item.Single(i => i.LinkId == link);

    public static Observation Writing(this Bundle bundle) => bundle.Trial("writing", Hand.Left);

    public static Quantity Seconds(this Bundle bundle) => (Quantity)bundle.Writing().Value!;

    public static Observation Stopped(this Bundle bundle) => bundle.Trial("writing", Hand.Right);

    public static Observation Declined(this Bundle bundle) => bundle.Trial("large-heavy-objects", Hand.Right);

    public static Observation Void(this Bundle bundle) => bundle.OfCode("card-turning-left-uncounted");

    public static Observation Handed(this Bundle bundle) => bundle.OfCode("57427004");

    public static Extension NormPart(this Bundle bundle, string part) =>
        bundle.Writing().ReferenceRange.Single().Extension.Single(e => e.Url == Extensions.NormSource).Extension.Single(e => e.Url == part);

    public static void Remove<T>(this Bundle bundle, Predicate<T> which)
        where T : Resource => bundle.Entry.RemoveAll(e => e.Resource is T resource && which(resource));

    public static Observation AddCopy(this Bundle bundle, Observation original, Action<Observation> change, bool sameId)
    {
        var copy = (Observation)original.DeepCopy();
        change(copy);
        copy.Id = sameId ? original.Id : "a-copy";
        bundle.Entry.Add(new() { FullUrl = $"urn:uuid:{copy.Id}", Resource = copy });
        return copy;
    }
}
