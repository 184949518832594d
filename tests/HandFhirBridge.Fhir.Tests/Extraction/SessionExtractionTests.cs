using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Extraction;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;

namespace HandFhirBridge.Fhir.Tests.Extraction;

/// <summary>
/// Responses of a form filler become the same session as the document (HL7 Structured Data Capture, operation
/// QuestionnaireResponse-extract: http://hl7.org/fhir/uv/sdc/OperationDefinition/QuestionnaireResponse-extract).
/// </summary>
public sealed class SessionExtractionTests
{
    private static readonly SessionReader Reader = new(InstrumentLibrary.Embedded, TimeProvider.System);
    private static readonly SessionExtraction Extraction = new(SessionValidator.Shared, Reader);

    private static string Sessions => Path.Combine(Repository.Root, "examples", "sessions");

    public static TheoryData<string> Examples =>
        [.. Directory.GetFiles(Sessions, "*.json", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(Sessions, path)).Order(StringComparer.Ordinal)];

    [Theory, MemberData(nameof(Examples))]
    public void Read_FilledForm_GivesTheSessionOfTheDocumentDigitForDigit(string example)
    {
        var document = File.ReadAllBytes(Path.Combine(Sessions, example));
        var expected = Reader.Read(document).Value.ShouldNotBeNull();

        var read = Extraction.Read(Bytes(FilledForm.Of(JsonNode.Parse(document)!.AsObject())));

        read.Problems.Where(problem => problem.Severity == Severity.Error).ShouldBeEmpty();
        Encoding.UTF8.GetString(SessionWriter.Write(read.Value!)).ShouldBe(Encoding.UTF8.GetString(SessionWriter.Write(expected)));
    }

    // A question without a place in the document would be asked, answered, and lost.
    [Fact]
    public void Properties_EveryQuestionOfTheForm_HasItsPlace() =>
        SessionQuestions.Properties.Keys.Order(StringComparer.Ordinal)
            .ShouldBe(FilledForm.Questions().Where(link => link != "cap-in-force").Order(StringComparer.Ordinal));

    [Fact]
    public void Read_ExampleForm_IsTheFilledInExampleSession()
    {
        var form = File.ReadAllBytes(Path.Combine(Repository.Root, "examples", "forms", "tarrowby-visit-1.json"));
        var session = File.ReadAllText(Path.Combine(Sessions, "harbour-hand-clinic", "tarrowby-visit-1.json"));

        JsonNode.DeepEquals(JsonNode.Parse(form), FilledForm.Of(JsonNode.Parse(session)!.AsObject())).ShouldBeTrue();
        Extraction.Read(form).Value.ShouldNotBeNull().SessionId.ShouldBe("HHC-004417-20260210");
    }

    [Fact]
    public void Read_ResponseInParameters_IsFound()
    {
        var parameters = new JsonObject
        {
            ["resourceType"] = "Parameters",
            ["parameter"] = new JsonArray(new JsonObject { ["name"] = "questionnaire-response", ["resource"] = Form() }),
        };
        Extraction.Read(Bytes(parameters)).Succeeded.ShouldBeTrue();
    }

    // R4 canonical: without a version it is the questionnaire in its current version.
    [Fact]
    public void Read_QuestionnaireWithoutVersion_IsTaken()
    {
        var form = Form();
        form["questionnaire"] = "https://handfhirbridge.example/fhir/Questionnaire/hfb-session";
        Extraction.Read(Bytes(form)).Succeeded.ShouldBeTrue();
    }

    // What form fillers add of their own does not change the answers (R4 extensibility: extensions may be ignored, modifiers not).
    [Fact]
    public void Read_UnknownExtension_IsLeftAside()
    {
        var form = Form();
        form["extension"] = new JsonArray(new JsonObject { ["url"] = "https://form-filler.example/theme", ["valueString"] = "dark" });
        Extraction.Read(Bytes(form)).Succeeded.ShouldBeTrue();
    }

    public static TheoryData<string, Action<JsonObject>, string, string> Mistakes => new()
    {
        { "other type", form => { form["resourceType"] = "Patient"; form.Remove("questionnaire"); form.Remove("status"); form.Remove("authored"); form.Remove("item"); form["active"] = true; }, "HFB3301", "Patient" },
        { "other questionnaire", form => form["questionnaire"] = "https://clinic.example/Questionnaire/falls", "HFB3302", "QuestionnaireResponse.questionnaire" },
        { "other version", form => form["questionnaire"] = "https://handfhirbridge.example/fhir/Questionnaire/hfb-session|9.9.9", "HFB3302", "QuestionnaireResponse.questionnaire" },
        { "in progress", form => form["status"] = "in-progress", "HFB3303", "QuestionnaireResponse.status" },
        { "entered in error", form => form["status"] = "entered-in-error", "HFB3303", "QuestionnaireResponse.status" },
        { "other subject", form => form["subject"] = Subject("HHC-004418"), "HFB3304", "QuestionnaireResponse.subject.identifier.value" },
        { "bound", form => Quantity(form)["comparator"] = "<", "HFB3305", "QuestionnaireResponse.item[23].answer[0].value.comparator" },
        { "modifier", form => Trial(form)["modifierExtension"] = new JsonArray(new JsonObject { ["url"] = "https://form-filler.example/not", ["valueBoolean"] = true }), "HFB3306", "QuestionnaireResponse" },
        { "answer missing", form => Trial(form)["item"]!.AsArray().RemoveAt(0), "HFB3052", "QuestionnaireResponse.item[28]" },
        { "negative seconds", form => Answer(form, "trial-seconds")["valueDecimal"] = -1.5m, "HFB1306", "QuestionnaireResponse.item[28].item[3].answer[0].value" },
        { "time without offset", form => Answer(form, "trial-started-at")["valueDateTime"] = "2026-02-10", "HFB1202", "QuestionnaireResponse.item[28].item[4].answer[0].value" },
    };

    [Theory, MemberData(nameof(Mistakes))]
    public void Read_Mistake_IsNamedAtItsPlaceInTheResponse(string name, Action<JsonObject> spoil, string code, string location)
    {
        var form = Form();
        spoil(form);

        var read = Extraction.Read(Bytes(form));

        read.Value.ShouldBeNull(name);
        read.Problems.Where(problem => problem.Severity == Severity.Error).Select(problem => (problem.Code, problem.Location)).ShouldContain((code, location), name);
    }

    private static JsonObject Form() =>
        FilledForm.Of(JsonNode.Parse(File.ReadAllText(Path.Combine(Sessions, "harbour-hand-clinic", "tarrowby-visit-1.json")))!.AsObject());

    private static JsonObject Trial(JsonObject form) => Item(form["item"]!.AsArray(), "trial");

    private static JsonObject Answer(JsonObject form, string link) => Item(Trial(form)["item"]!.AsArray(), link)["answer"]![0]!.AsObject();

    private static JsonObject Quantity(JsonObject form) => Item(form["item"]!.AsArray(), "table-height")["answer"]![0]!["valueQuantity"]!.AsObject();

    private static JsonObject Item(JsonArray items, string link) => items.OfType<JsonObject>().First(item => (string?)item["linkId"] == link);

    private static JsonObject Subject(string value) => new()
    {
        ["identifier"] = new JsonObject { ["system"] = "https://harbour-hand-clinic.example/id/patient", ["value"] = value },
    };

    private static byte[] Bytes(JsonObject resource) => Encoding.UTF8.GetBytes(resource.ToJsonString());
}
