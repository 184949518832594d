using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;
using ItemType = Hl7.Fhir.Model.Questionnaire.QuestionnaireItemType;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>An answer is of the question's type (table of http://hl7.org/fhir/R4/valueset-item-type.html).</summary>
internal sealed class AnswerTypeRule : IQuestionRule
{
    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding)
    {
        var allowed = TypesOf(asked.Question.Type);
        return from placed in asked.Answers
               where placed.Answer.Value is { } value && allowed.Length > 0 && !allowed.Contains(value.TypeName)
               select finding.At(
                   ValidationProblems.AnswerOfWrongType,
                   placed.Location + ".value",
                   $"The answer to '{asked.Question.LinkId}' is a {placed.Answer.Value!.TypeName}, not a {string.Join(" or ", allowed)}.");
    }

    private static string[] TypesOf(ItemType? type) => type switch
    {
        ItemType.Boolean => ["boolean"],
        ItemType.Decimal => ["decimal"],
        ItemType.Integer => ["integer"],
        ItemType.Date => ["date"],
        ItemType.DateTime => ["dateTime"],
        ItemType.Time => ["time"],
        ItemType.String or ItemType.Text => ["string"],
        ItemType.Url => ["uri"],
        ItemType.Choice => ["Coding", "string", "integer", "date", "time", "Reference"],
        ItemType.OpenChoice => ["Coding", "string"],
        ItemType.Attachment => ["Attachment"],
        ItemType.Reference => ["Reference"],
        ItemType.Quantity => ["Quantity"],
        _ => [],
    };
}
