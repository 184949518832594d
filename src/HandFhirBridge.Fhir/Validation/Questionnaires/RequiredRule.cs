using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>A required question has an answer, a required group is there.</summary>
internal sealed class RequiredRule : IQuestionRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding)
    {
        var isThere = asked.IsGroup ? asked.Items.Count > 0 : asked.Answers.Any(placed => placed.Answer.Value is not null);
        if (asked.MustBeWhole && asked.Question.Required == true && !asked.IsDisplay && !isThere)
        {
            yield return finding.At(
                ValidationProblems.AnswerMissing,
                asked.Items.Count > 0 ? asked.Items[0].Location : asked.Scope.Location,
                $"'{asked.Question.LinkId}' ({asked.Question.Text}) has no answer.");
        }
    }
}
