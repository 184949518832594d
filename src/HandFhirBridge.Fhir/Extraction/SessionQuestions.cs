using System.Collections.Frozen;

namespace HandFhirBridge.Fhir.Extraction;

/// <summary>Where in a session document each answer to the whole-session Questionnaire belongs.</summary>
internal static class SessionQuestions
{
    /// <summary>Groups that repeat, by link id: the list of the document that each occurrence is an entry of.</summary>
    internal static FrozenDictionary<string, string> Lists { get; } = new Dictionary<string, string>
    {
        ["precaution"] = "precautions",
        ["item-replaced"] = "setup.itemsReplaced",
        ["trial"] = "trials",
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Questions that may have several answers; the document holds a list even of one.</summary>
    internal static FrozenSet<string> Several { get; } =
        FrozenSet.Create(StringComparer.Ordinal, "precaution-rules-out", "precaution-hands", "trial-departures");

    /// <summary>Questions, by link id: the property, from the document or from the entry of the list around.</summary>
    internal static FrozenDictionary<string, string> Properties { get; } = new Dictionary<string, string>
    {
        ["session-id"] = "sessionId",
        ["revision"] = "revision",
        ["site"] = "site",
        ["instrument-id"] = "instrument.id",
        ["instrument-version"] = "instrument.version",
        ["patient-identifier-system"] = "patient.identifier.system",
        ["patient-identifier-value"] = "patient.identifier.value",
        ["family-name"] = "patient.familyName",
        ["birth-date"] = "patient.birthDate",
        ["performer-identifier-system"] = "performer.identifier.system",
        ["performer-identifier-value"] = "performer.identifier.value",
        ["performer-name"] = "performer.name",
        ["performer-role"] = "performer.role",
        ["encounter-system"] = "encounter.system",
        ["encounter-value"] = "encounter.value",
        ["order-system"] = "order.system",
        ["order-value"] = "order.value",
        ["session-started-at"] = "startedAt",
        ["session-ended-at"] = "endedAt",
        ["handedness"] = "dominance.handedness",
        ["how-known"] = "dominance.howKnown",
        ["laterality-quotient"] = "dominance.lateralityQuotient",
        ["tested-as-dominant"] = "dominance.testedAsDominant",
        ["sex-for-norm"] = "sexForNorm",
        ["precaution-asked"] = "precaution",
        ["precaution-answer"] = "answer",
        ["precaution-rules-out"] = "rulesOut",
        ["precaution-hands"] = "hands",
        ["precaution-note"] = "note",
        ["glasses"] = "setup.glasses",
        ["template-board"] = "setup.templateBoard",
        ["cap-seconds"] = "setup.capSeconds",
        ["table-height"] = "setup.tableHeight",
        ["chair-height"] = "setup.chairHeight",
        ["edge-to-items"] = "setup.edgeToItems",
        ["between-items"] = "setup.betweenItems",
        ["item-replaced-item"] = "item",
        ["item-replaced-by"] = "replacedBy",
        ["kit-name"] = "setup.kit.name",
        ["kit-serial-number"] = "setup.kit.serialNumber",
        ["trial-task"] = "task",
        ["trial-hand"] = "hand",
        ["trial-outcome"] = "outcome",
        ["trial-seconds"] = "seconds",
        ["trial-started-at"] = "startedAt",
        ["trial-source"] = "source",
        ["trial-counted"] = "counted",
        ["trial-departures"] = "departures",
        ["trial-reason"] = "reason",
        ["trial-note"] = "note",
        ["comment"] = "comment",
        ["conclusion-text"] = "conclusion.text",
        ["conclusion-signed-at"] = "conclusion.signedAt",
    }.ToFrozenDictionary(StringComparer.Ordinal);
}
