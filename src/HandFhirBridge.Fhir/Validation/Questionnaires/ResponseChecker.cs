using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>
/// Checks responses to one questionnaire, any questionnaire: required answers, conditions for asking, types, options,
/// repetition, order and unknown items, as FHIR R4 states them (http://hl7.org/fhir/R4/questionnaire.html,
/// http://hl7.org/fhir/R4/questionnaireresponse.html). One rule a class.
/// </summary>
/// <param name="questionnaire">The questionnaire; not changed afterwards.</param>
/// <param name="valueSets">Value sets that options are taken from.</param>
internal sealed class ResponseChecker(Questionnaire questionnaire, ClosedValueSets valueSets)
{
    private readonly ImmutableArray<IQuestionRule> _rules =
    [
        new RequiredRule(), new RepetitionRule(), new PlacementRule(), new AnswerTypeRule(), new OptionRule(valueSets), new UnitOptionRule(), new LengthRule(),
    ];

    /// <summary>Everything about a response that does not fit.</summary>
    /// <param name="response">The response.</param>
    /// <param name="location">FHIRPath of the response.</param>
    /// <param name="finding">Makes problems out of places.</param>
    internal IEnumerable<Problem> Check(QuestionnaireResponse response, string location, Finding finding)
    {
        var mustBeWhole = response.Status is QuestionnaireResponse.QuestionnaireResponseStatus.Completed or QuestionnaireResponse.QuestionnaireResponseStatus.Amended;
        return CheckItems(questionnaire.Item, new ItemScope(response.Item, location, null), mustBeWhole, finding);
    }

    private IEnumerable<Problem> CheckItems(List<Questionnaire.ItemComponent> questions, ItemScope scope, bool mustBeWhole, Finding finding)
    {
        foreach (var misfit in OrderRule.Check(questions, scope, finding))
        {
            yield return misfit;
        }

        foreach (var question in questions)
        {
            var asked = new AskedQuestion(question, scope, mustBeWhole);
            foreach (var problem in CheckQuestion(asked, finding))
            {
                yield return problem;
            }
        }
    }

    private IEnumerable<Problem> CheckQuestion(AskedQuestion asked, Finding finding)
    {
        if (!Enablement.IsEnabled(asked.Question, asked.Scope))
        {
            return asked.Items.Select(item => finding.At(
                ValidationProblems.AnswerNotAsked, item.Location, $"'{asked.Question.LinkId}' is answered, though other answers say that it is not to be asked."));
        }

        return _rules.SelectMany(rule => rule.Check(asked, finding))
            .Concat(asked.Scopes.SelectMany(inner => CheckItems(asked.Question.Item, inner, asked.MustBeWhole, finding)));
    }
}
