using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class SetupResponseMapperTests
{
    private static readonly Session Full = Samples.Clean with
    {
        Setup = Samples.Clean.Setup with
        {
            Glasses = Glasses.NeededNotWorn,
            TemplateBoard = true,
            TableHeight = new Length(30.0m, LengthUnit.Inch),
            ItemsReplaced = [new("coin", "a button"), new("pen", "a pencil")],
        },
        Precautions =
        [
            new("lifting-restriction", PrecautionAnswer.Yes, ["large-heavy-objects", "large-light-objects"], [Hand.Right], "Until March."),
            new("open-wound", PrecautionAnswer.NotKnown, [], [], null),
        ],
    };

    // R4 questionnaireresponse.html: linkIds are those of the Questionnaire, items stand in its order, and groups repeat as items of their own.
    [Fact]
    public void Map_FullSetup_AnswersInTheOrderOfTheQuestionnaire()
    {
        using var questionnaire = JsonDocument.Parse(File.ReadAllBytes(Repository.Package("Questionnaire-hfb-setup.json")));
        var order = Links(questionnaire.RootElement).ToList();
        var response = Mapped.Map(Full).Only<QuestionnaireResponse>();
        var places = response.Item.Select(item => order.IndexOf(item.LinkId!)).ToList();
        places.ShouldAllBe(place => place >= 0);
        places.ShouldBeInOrder();
        response.Item.SelectMany(item => item.Item).Select(item => item.LinkId).ShouldBeSubsetOf(order);
        response.Item.Count(i => i.LinkId == "precaution").ShouldBe(2);
        response.Item.Count(i => i.LinkId == "item-replaced").ShouldBe(2);
        var version = questionnaire.RootElement;
        response.Questionnaire.ShouldBe($"{version.GetProperty("url").GetString()}|{version.GetProperty("version").GetString()}");
    }

    // R4 questionnaireresponse.html: identifier is 0..1, author and source say who; UCUM [in_i] is the international inch, cm the centimetre.
    [Fact]
    public void Map_FullSetup_KeepsWhatWasEntered()
    {
        var response = Mapped.Map(Full).Only<QuestionnaireResponse>();
        response.Identifier!.Value.ShouldBe(Full.Key);
        response.Status.ShouldBe(QuestionnaireResponse.QuestionnaireResponseStatus.Completed);
        response.Author!.Identifier!.Value.ShouldBe("HHC-T-03");
        var text = FhirText.Of(response);
        text.ShouldContain("\"linkId\":\"table-height\",\"answer\":[{\"valueQuantity\":{\"value\":30.0,\"unit\":\"in\",\"system\":\"http://unitsofmeasure.org\",\"code\":\"[in_i]\"}}]");
        text.ShouldContain("\"linkId\":\"chair-height\",\"answer\":[{\"valueQuantity\":{\"value\":46,\"unit\":\"cm\",\"system\":\"http://unitsofmeasure.org\",\"code\":\"cm\"}}]");
        text.ShouldContain("\"linkId\":\"birth-date\",\"answer\":[{\"valueDate\":\"1988-04-12\"}]");
        text.ShouldContain("\"linkId\":\"session-started-at\",\"answer\":[{\"valueDateTime\":\"2026-06-16T09:00:00+02:00\"}]");
        var precaution = response.Item.First(i => i.LinkId == "precaution").Item;
        precaution.Single(i => i.LinkId == "precaution-rules-out").Answer.Select(a => ((Coding)a.Value!).Code).ShouldBe(["large-heavy-objects", "large-light-objects"]);
    }

    // enableWhen of the Questionnaire: cap-seconds is asked only where a cap is in force.
    [Fact]
    public void Map_NoCap_SaysSoAndLeavesSecondsOut()
    {
        var items = Mapped.Map(Samples.Clean with { Setup = Samples.Clean.Setup with { CapSeconds = null } }).Only<QuestionnaireResponse>().Item;
        ((FhirBoolean)items.Single(i => i.LinkId == "cap-in-force").Answer.Single().Value!).Value.ShouldBe(false);
        items.ShouldNotContain(i => i.LinkId == "cap-seconds");
    }

    private static IEnumerable<string> Links(JsonElement element) => element.TryGetProperty("item", out var items)
        ? items.EnumerateArray().SelectMany(item => Links(item).Prepend(item.GetProperty("linkId").GetString()!))
        : [];
}
