using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;
using ItemType = Hl7.Fhir.Model.Questionnaire.QuestionnaireItemType;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>The answer to a choice is one of those offered, in a list of options or a value set; an open choice may also be answered in words.</summary>
internal sealed class OptionRule(ClosedValueSets valueSets) : IQuestionRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding)
    {
        var question = asked.Question;
        if (question.AnswerOption.Count == 0 && question.AnswerValueSet is null)
        {
            return [];
        }

        return from placed in asked.Answers
               where placed.Answer.Value is { } value && !(question.Type == ItemType.OpenChoice && value is FhirString) && !IsOffered(question, value)
               select finding.At(
                   ValidationProblems.AnswerNotOffered, placed.Location + ".value", $"'{Written(placed.Answer.Value!)}' is not offered as an answer to '{question.LinkId}'.");
    }

    private bool IsOffered(Questionnaire.ItemComponent question, DataType value) =>
        question.AnswerValueSet is { } canonical
            ? value is Coding coding && valueSets.Find(canonical)?.Contains(coding.System, coding.Code) == true
            : question.AnswerOption.Exists(option => AreSame(option.Value, value));

    private static bool AreSame(DataType? option, DataType value) => option is Coding offered
        ? value is Coding given && offered.System == given.System && offered.Code == given.Code
        : option?.IsExactly(value) == true;

    private static string Written(DataType value) => value is Coding coding ? $"{coding.System}#{coding.Code}" : value.ToString() ?? value.TypeName;
}
