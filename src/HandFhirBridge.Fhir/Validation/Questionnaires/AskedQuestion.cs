using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>A question or group together with what a response holds for it in one scope.</summary>
internal sealed class AskedQuestion
{
    internal AskedQuestion(Questionnaire.ItemComponent question, ItemScope scope, bool mustBeWhole)
    {
        (Question, Scope, MustBeWhole) = (question, scope, mustBeWhole);
        Items =
        [
            .. scope.Items.Select((item, at) => new PlacedItem(item, scope.LocationOf(at))).Where(placed => placed.Item.LinkId == question.LinkId),
        ];
        Answers =
        [
            .. Items.SelectMany(placed => placed.Item.Answer.Select((answer, at) => new PlacedAnswer(answer, $"{placed.Location}.answer[{at}]"))),
        ];
    }

    internal Questionnaire.ItemComponent Question { get; }

    internal ItemScope Scope { get; }

    /// <summary>Whether required answers must be there: a response still in progress may lack them.</summary>
    internal bool MustBeWhole { get; }

    internal IReadOnlyList<PlacedItem> Items { get; }

    internal IReadOnlyList<PlacedAnswer> Answers { get; }

    internal bool IsGroup => Question.Type == Questionnaire.QuestionnaireItemType.Group;

    internal bool IsDisplay => Question.Type == Questionnaire.QuestionnaireItemType.Display;

    /// <summary>The scopes that the question's own items are answered in.</summary>
    internal IEnumerable<ItemScope> Scopes => Question.Item.Count == 0 ? []
        : IsGroup ? Items.Select(placed => new ItemScope(placed.Item.Item, placed.Location, Scope))
        : Answers.Select(placed => new ItemScope(placed.Answer.Item, placed.Location, Scope));
}
