using System.Text.Json.Nodes;

namespace HandFhirBridge.Fhir.Tests.Extraction;

/// <summary>
/// A form filler: asks the questions of the published Questionnaire in its order and answers them from a session document. It
/// knows the questions by the Questionnaire's own file, and nothing of how responses are read.
/// </summary>
internal static class FilledForm
{
    private static readonly JsonObject Questionnaire =
        JsonNode.Parse(File.ReadAllText(Mapping.Repository.Package("Questionnaire-hfb-session.json")))!.AsObject();

    /// <summary>Fills in the form.</summary>
    /// <param name="session">A session document.</param>
    public static JsonObject Of(JsonObject session) => new()
    {
        ["resourceType"] = "QuestionnaireResponse",
        ["questionnaire"] = $"{Questionnaire["url"]}|{Questionnaire["version"]}",
        ["status"] = "completed",
        ["authored"] = session["endedAt"]!.DeepClone(),
        ["item"] = Items(Questionnaire["item"]!.AsArray(), session),
    };

    /// <summary>Every question of the form that is to be answered, at any depth.</summary>
    public static IEnumerable<string> Questions() => Questions(Questionnaire["item"]!.AsArray());

    private static IEnumerable<string> Questions(JsonArray items) => items.OfType<JsonObject>().SelectMany(item =>
        item["item"] is JsonArray inner ? Questions(inner) : [(string)item["linkId"]!]);

    private static JsonArray Items(JsonArray questions, JsonObject facts)
    {
        var items = new JsonArray();
        foreach (var question in questions.OfType<JsonObject>())
        {
            var link = (string)question["linkId"]!;
            if (question["item"] is not JsonArray inner)
            {
                var answers = Answers(question, Fact(link, facts)).ToArray();
                if (answers.Length > 0)
                {
                    items.Add(new JsonObject { ["linkId"] = link, ["answer"] = new JsonArray(answers) });
                }

                continue;
            }

            foreach (var occurrence in Occurrences(link, facts))
            {
                var within = Items(inner, occurrence);
                if (within.Count > 0)
                {
                    items.Add(new JsonObject { ["linkId"] = link, ["item"] = within });
                }
            }
        }

        return items;
    }

    private static IEnumerable<JsonObject> Occurrences(string link, JsonObject facts) => link switch
    {
        "precaution" => Objects(facts["precautions"]),
        "item-replaced" => Objects(facts["setup"]!["itemsReplaced"]),
        "trial" => Objects(facts["trials"]),
        _ => [facts],
    };

    private static IEnumerable<JsonObject> Objects(JsonNode? list) => (list as JsonArray)?.OfType<JsonObject>() ?? [];

    private static JsonNode? Fact(string link, JsonObject facts) => link switch
    {
        "session-id" => facts["sessionId"],
        "revision" => facts["revision"] ?? 1,
        "site" or "comment" => facts[link],
        "instrument-id" or "instrument-version" => facts["instrument"]![After(link, "instrument-")],
        "patient-identifier-system" or "patient-identifier-value" => facts["patient"]!["identifier"]![After(link, "patient-identifier-")],
        "family-name" => facts["patient"]!["familyName"],
        "birth-date" => facts["patient"]!["birthDate"],
        "performer-identifier-system" or "performer-identifier-value" => facts["performer"]!["identifier"]![After(link, "performer-identifier-")],
        "performer-name" or "performer-role" => facts["performer"]![After(link, "performer-")],
        "encounter-system" or "encounter-value" => facts["encounter"]?[After(link, "encounter-")],
        "order-system" or "order-value" => facts["order"]?[After(link, "order-")],
        "session-started-at" => facts["startedAt"],
        "session-ended-at" => facts["endedAt"],
        "handedness" or "how-known" or "laterality-quotient" => facts["dominance"]![Camel(link)],
        "tested-as-dominant" => (string?)facts["dominance"]!["handedness"] == "ambidextrous" ? facts["dominance"]!["testedAsDominant"] : null,
        "sex-for-norm" => facts["sexForNorm"],
        "precaution-asked" => facts["precaution"],
        "precaution-answer" or "precaution-rules-out" or "precaution-hands" or "precaution-note" => facts[Camel(After(link, "precaution-"))],
        "cap-in-force" => facts["setup"]!["capSeconds"] is not null,
        "glasses" or "template-board" or "cap-seconds" or "table-height" or "chair-height" or "edge-to-items" or "between-items" => facts["setup"]![Camel(link)],
        "item-replaced-item" => facts["item"],
        "item-replaced-by" => facts["replacedBy"],
        "conclusion-text" or "conclusion-signed-at" => facts["conclusion"]?[Camel(After(link, "conclusion-"))],
        "kit-name" or "kit-serial-number" => facts["setup"]!["kit"]?[Camel(After(link, "kit-"))],
        "trial-counted" => facts["counted"] ?? true,
        _ when link.StartsWith("trial-", StringComparison.Ordinal) => facts[Camel(After(link, "trial-"))],
        _ => throw new InvalidOperationException($"The form asks {link}, which nobody has an answer to."),
    };

    private static IEnumerable<JsonNode> Answers(JsonObject question, JsonNode? fact) => fact switch
    {
        null => [],
        JsonArray several => several.Select(one => Answer(question, one!)),
        _ => [Answer(question, fact)],
    };

    private static JsonObject Answer(JsonObject question, JsonNode fact) => (string)question["type"]! switch
    {
        "choice" => new() { ["valueCoding"] = Option(question, (string)fact!) },
        "quantity" => new() { ["valueQuantity"] = Quantity(fact) },
        "text" => new() { ["valueString"] = fact.DeepClone() },
        var type => new() { [$"value{char.ToUpperInvariant(type[0])}{type[1..]}"] = fact.DeepClone() },
    };

    private static JsonNode Option(JsonObject question, string code) =>
        question["answerOption"]!.AsArray().Select(option => option!["valueCoding"]!).Single(coding => (string?)coding["code"] == code).DeepClone();

    private static JsonObject Quantity(JsonNode fact) => fact is JsonObject length
        ? Quantity(length["value"]!, (string)length["unit"]!, (string)length["unit"]! == "in" ? "[in_i]" : "cm")
        : Quantity(fact, "s", "s");

    private static JsonObject Quantity(JsonNode value, string unit, string code) =>
        new() { ["value"] = value.DeepClone(), ["unit"] = unit, ["system"] = "http://unitsofmeasure.org", ["code"] = code };

    private static string After(string link, string prefix) => link[prefix.Length..];

    private static string Camel(string link) =>
        string.Concat(link.Split('-').Select((word, n) => n == 0 ? word : char.ToUpperInvariant(word[0]) + word[1..]));
}
