using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Words are not longer than the question's maxLength, in characters.</summary>
internal sealed class LengthRule : IQuestionRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding) =>
        from placed in asked.Answers
        where asked.Question.MaxLength is { } most && placed.Answer.Value is FhirString { Value: { } words } && words.Length > most
        select finding.At(
            ValidationProblems.AnswerTooLong, placed.Location + ".value", $"The answer to '{asked.Question.LinkId}' has more than {asked.Question.MaxLength} characters.");
}
