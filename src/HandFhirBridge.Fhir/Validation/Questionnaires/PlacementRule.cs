using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Groups have items and no answers; the items of a question stand inside its answers, not beside them.</summary>
internal sealed class PlacementRule : IQuestionRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding)
    {
        foreach (var (item, location) in asked.Items)
        {
            if ((asked.IsGroup || asked.IsDisplay) && item.Answer.Count > 0)
            {
                yield return finding.At(ValidationProblems.AnswerMisplaced, location + ".answer[0]", $"'{asked.Question.LinkId}' is no question and has an answer.");
            }
            else if (!asked.IsGroup && item.Item.Count > 0)
            {
                yield return finding.At(ValidationProblems.AnswerMisplaced, location + ".item[0]", $"'{asked.Question.LinkId}' is no group and has items beside its answer.");
            }
        }
    }
}
