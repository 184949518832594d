namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Link ids of the set-up Questionnaire.</summary>
internal static class SetupLinks
{
    public const string InstrumentId = "instrument-id";
    public const string InstrumentVersion = "instrument-version";
    public const string StartedAt = "session-started-at";
    public const string EndedAt = "session-ended-at";
    public const string PerformerRole = "performer-role";
    public const string FamilyName = "family-name";
    public const string BirthDate = "birth-date";
    public const string SexForNorm = "sex-for-norm";
    public const string Precaution = "precaution";
    public const string PrecautionAsked = "precaution-asked";
    public const string PrecautionAnswer = "precaution-answer";
    public const string PrecautionRulesOut = "precaution-rules-out";
    public const string PrecautionHands = "precaution-hands";
    public const string PrecautionNote = "precaution-note";
    public const string Glasses = "glasses";
    public const string TemplateBoard = "template-board";
    public const string CapInForce = "cap-in-force";
    public const string CapSeconds = "cap-seconds";
    public const string TableHeight = "table-height";
    public const string ChairHeight = "chair-height";
    public const string EdgeToItems = "edge-to-items";
    public const string BetweenItems = "between-items";
    public const string ItemReplaced = "item-replaced";
    public const string ItemReplacedItem = "item-replaced-item";
    public const string ItemReplacedBy = "item-replaced-by";
    public const string Comment = "comment";
}
