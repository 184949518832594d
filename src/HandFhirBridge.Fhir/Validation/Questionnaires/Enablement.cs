using Hl7.Fhir.Model;
using Behavior = Hl7.Fhir.Model.Questionnaire.EnableWhenBehavior;
using Operator = Hl7.Fhir.Model.Questionnaire.QuestionnaireItemOperator;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Whether a question is to be asked, given the other answers (http://hl7.org/fhir/R4/questionnaire-definitions.html#Questionnaire.item.enableWhen).</summary>
internal static class Enablement
{
    internal static bool IsEnabled(Questionnaire.ItemComponent question, ItemScope scope) =>
        question.EnableWhen.Count == 0
        || (question.EnableBehavior == Behavior.Any
            ? question.EnableWhen.Exists(condition => Holds(condition, scope))
            : question.EnableWhen.TrueForAll(condition => Holds(condition, scope)));

    private static bool Holds(Questionnaire.EnableWhenComponent condition, ItemScope scope)
    {
        var answers = Nearest(condition.Question!, scope).ToList();
        return condition.Operator == Operator.Exists
            ? answers.Count > 0 == (condition.Answer as FhirBoolean)?.Value
            : answers.Exists(answer => Compares(answer, condition.Operator, condition.Answer!));
    }

    /// <summary>Answers to a question in the nearest scope that has it, so that a repeated group looks at itself first.</summary>
    private static IEnumerable<DataType> Nearest(string linkId, ItemScope scope)
    {
        for (var at = scope; at is not null; at = at.Outer)
        {
            var items = Within(at.Items).Where(item => item.LinkId == linkId).ToList();
            if (items.Count > 0)
            {
                return items.SelectMany(item => item.Answer).Select(answer => answer.Value).OfType<DataType>();
            }
        }

        return [];
    }

    private static IEnumerable<QuestionnaireResponse.ItemComponent> Within(IEnumerable<QuestionnaireResponse.ItemComponent> items) =>
        items.SelectMany(item => Within(item.Item).Concat(Within(item.Answer.SelectMany(answer => answer.Item))).Prepend(item));

    private static bool Compares(DataType answer, Operator? by, DataType expected) => by switch
    {
        Operator.Equal => AreSame(answer, expected),
        Operator.NotEqual => !AreSame(answer, expected),
        Operator.GreaterThan => Order(answer, expected) > 0,
        Operator.LessThan => Order(answer, expected) < 0,
        Operator.GreaterOrEqual => Order(answer, expected) >= 0,
        Operator.LessOrEqual => Order(answer, expected) <= 0,
        _ => throw new NotSupportedException($"enableWhen operator '{by}' is none of FHIR R4."),
    };

    private static bool AreSame(DataType answer, DataType expected) => (answer, expected) switch
    {
        (Coding given, Coding wanted) => given.System == wanted.System && given.Code == wanted.Code,
        (Quantity, Quantity) or (FhirDecimal, FhirDecimal) => Order(answer, expected) == 0,
        _ => answer.IsExactly(expected),
    };

    /// <summary>Null where the two cannot be compared, such as quantities in different units; then no comparison holds.</summary>
    private static int? Order(DataType answer, DataType expected) => (answer, expected) switch
    {
        (Integer { Value: { } given }, Integer { Value: { } wanted }) => given.CompareTo(wanted),
        (FhirDecimal { Value: { } given }, FhirDecimal { Value: { } wanted }) => given.CompareTo(wanted),
        (Quantity { Value: { } given } one, Quantity { Value: { } wanted } other) when one.System == other.System && one.Code == other.Code => given.CompareTo(wanted),
        (Date { Value: { } given }, Date { Value: { } wanted }) => string.CompareOrdinal(given, wanted),
        (Time { Value: { } given }, Time { Value: { } wanted }) => string.CompareOrdinal(given, wanted),
        (FhirDateTime given, FhirDateTime wanted) => given.ToDateTimeOffset(TimeSpan.Zero).CompareTo(wanted.ToDateTimeOffset(TimeSpan.Zero)),
        _ => null,
    };
}
