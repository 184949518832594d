using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;
using Hl7.Fhir.Utility;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Whether a resource may be read at all: not withdrawn, final, and without anything that changes its meaning in a way we do not know.</summary>
internal static class Soundness
{
    public static void Check(DomainResource resource, Place place)
    {
        CheckStatus(resource, place.At("status"));
        if (resource.ImplicitRules is { } rules)
        {
            place.At("implicitRules").Add(ReadingProblems.ModifierNotUnderstood, $"names rules that are not known: {rules}.", rules);
        }

        if (HasModifier(resource))
        {
            place.Add(ReadingProblems.ModifierNotUnderstood, "has a modifier extension, which may change what it means.");
        }
    }

    private static void CheckStatus(DomainResource resource, Place place)
    {
        var (status, final) = resource switch
        {
            Observation o => (o.Status.GetLiteral(),
                o.Status is ObservationStatus.Final or ObservationStatus.Amended or ObservationStatus.Corrected or ObservationStatus.Cancelled),
            DiagnosticReport r => (r.Status.GetLiteral(),
                r.Status is DiagnosticReport.DiagnosticReportStatus.Final or DiagnosticReport.DiagnosticReportStatus.Amended
                    or DiagnosticReport.DiagnosticReportStatus.Corrected),
            QuestionnaireResponse q => (q.Status.GetLiteral(),
                q.Status is QuestionnaireResponse.QuestionnaireResponseStatus.Completed or QuestionnaireResponse.QuestionnaireResponseStatus.Amended),
            _ => (null, true),
        };
        if (!final)
        {
            ProblemKind kind = status == "entered-in-error" ? ReadingProblems.Withdrawn : ReadingProblems.NotFinal;
            var why = resource.GetExtensionValue<CodeableConcept>(Extensions.StatusReason)?.Text;
            place.Add(kind, status == "entered-in-error" ? PlainWords.Sentence($"was withdrawn (entered-in-error): {why ?? "no reason is given"}") : $"is {status ?? "missing"}.", status);
        }
    }

    // R4 extensibility.html: whoever processes a resource shall look for modifier extensions, wherever they stand.
    internal static bool HasModifier(Base element) => element.EnumerateElements()
        .Any(child => child.Key == "modifierExtension" || Within(child.Value).Any(HasModifier));

    private static IEnumerable<Base> Within(object value) => value switch
    {
        Base one => [one],
        IEnumerable<Base> several => several,
        _ => [],
    };
}
