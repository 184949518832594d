using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Fhir.Validation.Questionnaires;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;
using Item = Hl7.Fhir.Model.Questionnaire.ItemComponent;
using ItemType = Hl7.Fhir.Model.Questionnaire.QuestionnaireItemType;
using Operator = Hl7.Fhir.Model.Questionnaire.QuestionnaireItemOperator;

namespace HandFhirBridge.Fhir.Tests.Validation.Questionnaires;

/// <summary>Rules of http://hl7.org/fhir/R4/questionnaire.html and http://hl7.org/fhir/R4/questionnaire-definitions.html on questionnaires made for them.</summary>
public sealed class ResponseCheckerTests
{
    private static readonly ClosedValueSets ValueSets = new(new DefinitionSource());

    [Fact]
    public void Check_AnswerLongerThanMaxLength_IsNamed() =>
        Codes(Ask(new Item { LinkId = "a", Type = ItemType.String, MaxLength = 3 }), Said("a", new FhirString("four"))).ShouldBe(["HFB3058"]);

    [Fact]
    public void Check_AnswerOfGroup_IsNamed() =>
        Codes(Ask(new Item { LinkId = "a", Type = ItemType.Group, Item = [new() { LinkId = "b", Type = ItemType.String }] }), Said("a", new FhirString("x"))).ShouldBe(["HFB3059"]);

    [Fact]
    public void Check_ItemsBesideTheAnswerOfAQuestion_AreNamed()
    {
        var item = Said("a", new FhirString("x"));
        item.Item = [Said("b", new FhirString("y"))];
        Codes(Ask(new Item { LinkId = "a", Type = ItemType.String, Item = [new() { LinkId = "b", Type = ItemType.String }] }), item).ShouldBe(["HFB3059"]);
    }

    [Fact]
    public void Check_RequiredWithinAnswer_IsAskedForThere()
    {
        var problem = Check(
            Ask(new Item { LinkId = "a", Type = ItemType.String, Item = [new() { LinkId = "b", Type = ItemType.String, Required = true }] }),
            QuestionnaireResponse.QuestionnaireResponseStatus.Completed,
            Said("a", new FhirString("x"))).ShouldHaveSingleItem();
        problem.Kind.ShouldBe(ValidationProblems.AnswerMissing);
        problem.Location.ShouldBe("QuestionnaireResponse.item[0].answer[0]");
    }

    [Fact]
    public void Check_RequiredMissingWhileInProgress_IsNothing() =>
        Check(Ask(new Item { LinkId = "a", Type = ItemType.String, Required = true }), QuestionnaireResponse.QuestionnaireResponseStatus.InProgress).ShouldBeEmpty();

    [Fact]
    public void Check_OpenChoiceInWords_IsNothing() =>
        Codes(Ask(new Item { LinkId = "a", Type = ItemType.OpenChoice, AnswerOption = [new() { Value = new Coding("s", "c") }] }), Said("a", new FhirString("something else"))).ShouldBeEmpty();

    [Theory]
    [InlineData("left", true)]
    [InlineData("middle", false)]
    public void Check_AnswerValueSet_Decides(string code, bool isOffered)
    {
        var question = new Questionnaire.ItemComponent { LinkId = "a", Type = ItemType.Choice, AnswerValueSet = "https://handfhirbridge.example/fhir/ValueSet/hfb-vs-hand" };
        Codes(Ask(question), Said("a", new Coding("https://handfhirbridge.example/fhir/CodeSystem/hfb-cs-hand", code))).ShouldBe(isOffered ? [] : ["HFB3055"]);
    }

    // Meaning of the operators: http://hl7.org/fhir/R4/valueset-questionnaire-enable-operator.html.
    [Theory]
    [InlineData(Operator.Equal, 5, true)]
    [InlineData(Operator.Equal, 6, false)]
    [InlineData(Operator.NotEqual, 5, false)]
    [InlineData(Operator.NotEqual, 6, true)]
    [InlineData(Operator.GreaterThan, 4, false)]
    [InlineData(Operator.GreaterThan, 6, true)]
    [InlineData(Operator.LessThan, 4, true)]
    [InlineData(Operator.GreaterOrEqual, 5, true)]
    [InlineData(Operator.LessOrEqual, 6, false)]
    public void Check_EnableWhenComparesWithFive_AsksOrNot(Operator by, int answered, bool isAsked)
    {
        var questionnaire = Ask(
            new Item { LinkId = "n", Type = ItemType.Integer },
            new() { LinkId = "a", Type = ItemType.String, EnableWhen = [new() { Question = "n", Operator = by, Answer = new Integer(5) }] });
        Codes(questionnaire, Said("n", new Integer(answered)), Said("a", new FhirString("x"))).ShouldBe(isAsked ? [] : ["HFB3053"]);
    }

    [Theory]
    [InlineData(true, true, true)]
    [InlineData(true, false, false)]
    [InlineData(false, false, true)]
    [InlineData(false, true, false)]
    public void Check_EnableWhenExists_AsksOrNot(bool mustExist, bool exists, bool isAsked)
    {
        var questionnaire = Ask(
            new Item { LinkId = "n", Type = ItemType.Integer },
            new() { LinkId = "a", Type = ItemType.String, EnableWhen = [new() { Question = "n", Operator = Operator.Exists, Answer = new FhirBoolean(mustExist) }] });
        QuestionnaireResponse.ItemComponent[] items = exists ? [Said("n", new Integer(1)), Said("a", new FhirString("x"))] : [Said("a", new FhirString("x"))];
        Codes(questionnaire, items).ShouldBe(isAsked ? [] : ["HFB3053"]);
    }

    [Theory]
    [InlineData(Questionnaire.EnableWhenBehavior.Any, true)]
    [InlineData(Questionnaire.EnableWhenBehavior.All, false)]
    public void Check_EnableBehavior_JoinsConditions(Questionnaire.EnableWhenBehavior behavior, bool isAsked)
    {
        var questionnaire = Ask(
            new Item { LinkId = "n", Type = ItemType.Integer },
            new()
            {
                LinkId = "a",
                Type = ItemType.String,
                EnableBehavior = behavior,
                EnableWhen =
                [
                    new() { Question = "n", Operator = Operator.Equal, Answer = new Integer(1) },
                    new() { Question = "n", Operator = Operator.Equal, Answer = new Integer(2) },
                ],
            });
        Codes(questionnaire, Said("n", new Integer(1)), Said("a", new FhirString("x"))).ShouldBe(isAsked ? [] : ["HFB3053"]);
    }

    [Fact]
    public void Check_ConditionInRepeatedGroup_LooksAtItsOwnGroup()
    {
        var questionnaire = Ask(new Questionnaire.ItemComponent
        {
            LinkId = "g",
            Type = ItemType.Group,
            Repeats = true,
            Item =
            [
                new() { LinkId = "n", Type = ItemType.Boolean },
                new() { LinkId = "a", Type = ItemType.String, EnableWhen = [new() { Question = "n", Operator = Operator.Equal, Answer = new FhirBoolean(true) }] },
            ],
        });
        var problem = Check(
            questionnaire,
            QuestionnaireResponse.QuestionnaireResponseStatus.Completed,
            Group("g", Said("n", new FhirBoolean(true)), Said("a", new FhirString("x"))),
            Group("g", Said("n", new FhirBoolean(false)), Said("a", new FhirString("x")))).ShouldHaveSingleItem();
        problem.Location.ShouldBe("QuestionnaireResponse.item[1].item[1]");
    }

    [Fact]
    public void Check_QuantityInAnotherUnit_IsNotComparedAndNotAsked()
    {
        var questionnaire = Ask(
            new Item { LinkId = "n", Type = ItemType.Quantity },
            new() { LinkId = "a", Type = ItemType.String, EnableWhen = [new() { Question = "n", Operator = Operator.GreaterThan, Answer = new Quantity(5, "cm") }] });
        Codes(questionnaire, Said("n", new Quantity(9, "[in_i]")), Said("a", new FhirString("x"))).ShouldBe(["HFB3053"]);
    }

    private static Questionnaire Ask(params Questionnaire.ItemComponent[] items) => new() { Item = [.. items] };

    private static QuestionnaireResponse.ItemComponent Said(string linkId, DataType answer) => new() { LinkId = linkId, Answer = [new() { Value = answer }] };

    private static QuestionnaireResponse.ItemComponent Group(string linkId, params QuestionnaireResponse.ItemComponent[] items) => new() { LinkId = linkId, Item = [.. items] };

    private static string[] Codes(Questionnaire questionnaire, params QuestionnaireResponse.ItemComponent[] items) =>
        [.. Check(questionnaire, QuestionnaireResponse.QuestionnaireResponseStatus.Completed, items).Select(problem => problem.Code)];

    private static List<Assessment.Problems.Problem> Check(
        Questionnaire questionnaire, QuestionnaireResponse.QuestionnaireResponseStatus status, params QuestionnaireResponse.ItemComponent[] items)
    {
        var response = new QuestionnaireResponse { Status = status, Item = [.. items] };
        return [.. new ResponseChecker(questionnaire, ValueSets).Check(response, "QuestionnaireResponse", new Finding(response))];
    }
}
