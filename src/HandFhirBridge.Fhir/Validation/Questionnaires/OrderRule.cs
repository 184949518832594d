using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Items are the questionnaire's own and stand in its order.</summary>
internal static class OrderRule
{
    internal static IEnumerable<Problem> Check(List<Questionnaire.ItemComponent> questions, ItemScope scope, Finding finding)
    {
        var latest = -1;
        for (var at = 0; at < scope.Items.Count; at++)
        {
            var linkId = scope.Items[at].LinkId;
            var place = questions.FindIndex(question => question.LinkId == linkId);
            if (place < 0)
            {
                yield return finding.At(ValidationProblems.UnknownItem, scope.LocationOf(at) + ".linkId", $"The questionnaire has no item '{linkId}' here.");
            }
            else if (place < latest)
            {
                yield return finding.At(ValidationProblems.ItemsOutOfOrder, scope.LocationOf(at), $"'{linkId}' stands after '{questions[latest].LinkId}'.");
            }

            latest = Math.Max(latest, place);
        }
    }
}
