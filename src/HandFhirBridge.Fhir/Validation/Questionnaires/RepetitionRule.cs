using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Only what repeats is there more than once: a group as several items, a question as one item with several answers.</summary>
internal sealed class RepetitionRule : IQuestionRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding)
    {
        var mayRepeat = asked.Question.Repeats == true;
        if (asked.Items.Count > 1 && !(asked.IsGroup && mayRepeat))
        {
            yield return finding.At(ValidationProblems.TooManyAnswers, asked.Items[1].Location, $"'{asked.Question.LinkId}' is there {asked.Items.Count} times.");
        }

        if (asked.Answers.Count > 1 && !mayRepeat && asked.Items.Count == 1)
        {
            yield return finding.At(ValidationProblems.TooManyAnswers, asked.Answers[1].Location, $"'{asked.Question.LinkId}' has {asked.Answers.Count} answers.");
        }
    }
}
