using System.Text.Json.Nodes;
using static HandFhirBridge.Fhir.Validation.ValidationProblems;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>Mistakes of the kinds that mappers and hand edits make.</summary>
internal static class SeededMistakes
{
    private const string Trial = "hfb-trial";
    private const string Setup = "hfb-setup-response";

    public static readonly SeededMistake[] All =
    [
        new("unit that is no UCUM code", Trial, r => r["valueQuantity"]!["code"] = "sec", UnitNotKnown, ".value.code"),
        new("wrong unit", Trial, r => r["valueQuantity"]!["code"] = "cm", FixedValueDiffers, ".value"),
        new("unit not coded", Trial, r => r["valueQuantity"]!.AsObject().Remove("code"), UnitMissing, ".value"),
        new("no bodySite", Trial, r => r.Remove("bodySite"), WrongCount, ""),
        new("bodySite of the other hand", Trial, OtherHand, RuleBroken, ""),
        new("wrong code", Trial, r => r["code"]!["coding"]![0]!["code"] = "juggling-left", CodeNotInValueSet, ".code"),
        new("code with a second coding", Trial, SecondCoding, WrongCount, ".code"),
        new("date that does not exist", Trial, r => r["effectiveDateTime"] = "2026-02-30T09:00:00+01:00", InvalidValue, ".effective"),
        new("date without offset", Trial, r => r["effectiveDateTime"] = "2026-02-03T09:00:00", InvalidValue, ".effective"),
        new("period instead of a moment", Trial, Period, WrongType, ".effective"),
        new("negative seconds", Trial, r => r["valueQuantity"]!["value"] = -12.4m, RuleBroken, ""),
        new("no subject", Trial, r => r.Remove("subject"), WrongCount, ""),
        new("value and dataAbsentReason together", Trial, AbsentReason, RuleBroken, ""),
        new("unknown modifier extension", Trial, r => r["modifierExtension"] = Extension(), UnknownExtension, ".modifierExtension[0]"),
        new("unknown extension", Trial, r => r["extension"]!.AsArray().Add(Extension()[0]!.DeepClone()), UnknownExtension, ".extension[3]"),
        new("reference of the wrong type in the bundle", Trial, r => r["derivedFrom"]![0]!["reference"] = r["device"]?["reference"]?.GetValue<string>() ?? "Device/x", WrongTarget, ".derivedFrom[0]"),
        new("declared reference type that is not allowed", Trial, r => r["subject"]!["type"] = "Organization", WrongTarget, ".subject"),
        new("reference to nothing in the bundle", Trial, r => r["derivedFrom"]![0]!["reference"] = "urn:uuid:6f9619ff-8b86-5011-b42d-00cf4fc964ff", TargetNotInBundle, ".derivedFrom[0].reference"),
        new("wrong category", Trial, r => r["category"]![0]!["coding"]![0]!["code"] = "laboratory", WrongCount, ""),
        new("no status", Trial, r => r.Remove("status"), WrongCount, ""),
        new("status that is no status", Trial, r => r["status"] = "done", CodeNotInValueSet, ".status"),
        new("unknown element", Trial, r => r["handed"] = "left", UnknownElement, ".handed"),
        new("profile not claimed", Trial, r => r.Remove("meta"), ProfileNotClaimed, ""),
        new("profile that does not exist", Trial, r => r["meta"]!["profile"]![0] = "https://handfhirbridge.example/fhir/StructureDefinition/hfb-trail", UnknownProfile, ""),
        new("object without content", Trial, r => r["valueQuantity"] = new JsonObject(), EmptyElement, ".value"),
        new("display of another code", Trial, r => r["bodySite"]!["coding"]![0]!["display"] = "Entire foot", DisplayDiffers, ".bodySite"),
        new("code in words alone", Trial, r => r["code"] = new JsonObject { ["text"] = "Writing" }, CodeMissing, ".code"),
        new("reference that is no address", Trial, r => r["derivedFrom"]![0]!["reference"] = "http://[", UnreadableReference, ".derivedFrom[0].reference"),
        new("no narrative", Trial, r => r.Remove("text"), WrongCount, ""),
        new("string too long", Trial, r => r["valueQuantity"]!["unit"] = new string('s', (1024 * 1024) + 1), OutOfRange, ".value.unit"),
        new("component in words alone", Trial, r => r["component"]!.AsArray().Add(new JsonObject { ["code"] = new JsonObject { ["text"] = "x" }, ["valueString"] = "y" }), CodeMissing, ".component[3].code"),
        new("panel with a value", "hfb-panel", r => r["valueQuantity"] = Seconds(), WrongCount, ""),
        new("total without its trials", "hfb-total", r => r.Remove("derivedFrom"), RuleBroken, ""),
        new("report without its results", "hfb-report", r => r.Remove("result"), WrongCount, ""),
        new("provenance without agent", "hfb-provenance", r => r.Remove("agent"), WrongCount, ""),
        new("narrative that is no XHTML", Trial, r => r["text"]!["div"] = "<div xmlns=\"http://www.w3.org/1999/xhtml\"><script>alert(1)</script></div>", InvalidValue, ".text.div"),
        new("required answer missing", Setup, r => Remove(r, "glasses"), AnswerMissing, ""),
        new("answer that is not offered", Setup, r => Item(r, "glasses")["answer"]![0]!["valueCoding"]!["code"] = "lost", AnswerNotOffered, ".item[{glasses}].answer[0].value"),
        new("answer of the wrong type", Setup, r => Item(r, "template-board")["answer"]![0] = new JsonObject { ["valueString"] = "yes" }, AnswerOfWrongType, ".item[{template-board}].answer[0].value"),
        new("answer not to be asked", Setup, r => Item(r, "cap-in-force")["answer"]![0]!["valueBoolean"] = false, AnswerNotAsked, ".item[{cap-seconds}]"),
        new("unknown item", Setup, r => Item(r, "glasses")["linkId"] = "spectacles", UnknownItem, ".item[{spectacles}].linkId"),
        new("two answers to one question", Setup, r => Item(r, "template-board")["answer"]!.AsArray().Add(new JsonObject { ["valueBoolean"] = true }), TooManyAnswers, ".item[{template-board}].answer[1]"),
        new("length in another unit", Setup, r => Item(r, "cap-seconds")["answer"]![0]!["valueQuantity"]!["code"] = "cm", AnswerNotOffered, ".item[{cap-seconds}].answer[0].value"),
        new("items out of order", Setup, Swap, ItemsOutOfOrder, ".item[1]"),
        new("questionnaire that does not exist", Setup, r => r["questionnaire"] = "https://handfhirbridge.example/fhir/Questionnaire/hfb-setup|9.9", UnknownQuestionnaire, ".questionnaire"),
    ];

    /// <summary>Place of the item with a link id among its siblings.</summary>
    public static int Place(JsonObject response, string linkId) =>
        response["item"]!.AsArray().Select((item, at) => (item, at)).First(placed => (string?)placed.item!["linkId"] == linkId).at;

    private static JsonObject Item(JsonObject response, string linkId) => response["item"]![Place(response, linkId)]!.AsObject();

    private static void Remove(JsonObject response, string linkId) => response["item"]!.AsArray().RemoveAt(Place(response, linkId));

    private static void Swap(JsonObject response)
    {
        var items = response["item"]!.AsArray();
        var first = items[0]!;
        items.RemoveAt(0);
        items.Insert(1, first);
    }

    private static void OtherHand(JsonObject trial)
    {
        var coding = trial["bodySite"]!["coding"]![0]!;
        coding["code"] = (string?)coding["code"] == "85151006" ? "78791008" : "85151006";
    }

    private static void SecondCoding(JsonObject trial) =>
        trial["code"]!["coding"]!.AsArray().Add(new JsonObject { ["system"] = "http://example.org/local", ["code"] = "x" });

    private static void Period(JsonObject trial)
    {
        trial["effectivePeriod"] = new JsonObject { ["start"] = trial["effectiveDateTime"]!.GetValue<string>() };
        trial.Remove("effectiveDateTime");
    }

    private static void AbsentReason(JsonObject trial) => trial["dataAbsentReason"] = new JsonObject
    {
        ["coding"] = new JsonArray(new JsonObject
        {
            ["system"] = "http://terminology.hl7.org/CodeSystem/data-absent-reason",
            ["code"] = "not-performed",
        }),
        ["text"] = "Not done",
    };

    private static JsonArray Extension() => [new JsonObject { ["url"] = "http://example.org/fhir/StructureDefinition/unheard-of", ["valueBoolean"] = true }];

    private static JsonObject Seconds() => new() { ["value"] = 12.4m, ["unit"] = "s", ["system"] = "http://unitsofmeasure.org", ["code"] = "s" };
}
