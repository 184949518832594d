using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>Everything that can be wrong with resources before they are queued. Codes HFB3001 to HFB3199.</summary>
public static class ValidationProblems
{
    // 300x, 301x: structure, by the base definitions and the profiles
    /// <summary>HFB3001: Text is not FHIR JSON.</summary>
    public static readonly ProblemKind NotFhirJson = Error("HFB3001", "structure", "Text is not FHIR JSON", "Send a FHIR R4 resource in JSON.");
    /// <summary>HFB3002: Value not in the form its type has.</summary>
    public static readonly ProblemKind InvalidValue = Error("HFB3002", "value", "Value not in the form its type has", "Write the value in the form FHIR R4 gives for its type.");
    /// <summary>HFB3003: Unknown element.</summary>
    public static readonly ProblemKind UnknownElement = Error("HFB3003", "structure", "Unknown element", "Remove it or correct its name.");
    /// <summary>HFB3004: Element missing, or there too often.</summary>
    public static readonly ProblemKind WrongCount = Error("HFB3004", "required", "Element missing, or there too often", "Give the element as often as the profile asks.");
    /// <summary>HFB3005: Element of the wrong type.</summary>
    public static readonly ProblemKind WrongType = Error("HFB3005", "structure", "Element of the wrong type", "Use a type that the profile allows here.");
    /// <summary>HFB3006: Value differs from the one the profile fixes.</summary>
    public static readonly ProblemKind FixedValueDiffers = Error("HFB3006", "value", "Value differs from the one the profile fixes", "Use the value the profile fixes.");
    /// <summary>HFB3007: Value too long, too small or too large.</summary>
    public static readonly ProblemKind OutOfRange = Error("HFB3007", "value", "Value too long, too small or too large", "Correct the value.");
    /// <summary>HFB3008: Rule broken.</summary>
    public static readonly ProblemKind RuleBroken = Error("HFB3008", "invariant", "Rule broken", "Correct the elements the rule is about.");
    /// <summary>HFB3009: Good practice not followed.</summary>
    public static readonly ProblemKind PracticeNotFollowed = new(
        "HFB3009", Severity.Warning, "invariant", 200, false, "Good practice not followed", "Correct the elements the rule is about where you can.");
    /// <summary>HFB3010: Element fits none of those allowed in its list.</summary>
    public static readonly ProblemKind SliceNotAllowed = Error("HFB3010", "structure", "Element fits none of those allowed in its list", "Remove it, or correct what tells it apart.");
    /// <summary>HFB3011: Element without value or content.</summary>
    public static readonly ProblemKind EmptyElement = Error("HFB3011", "structure", "Element without value or content", "Give it a value or leave it out.");

    // 302x: codes and units
    /// <summary>HFB3020: Code not in the value set.</summary>
    public static readonly ProblemKind CodeNotInValueSet = Error("HFB3020", "code-invalid", "Code not in the value set", "Use a code of the value set named.");
    /// <summary>HFB3021: Text of a code differs from the one in its value set.</summary>
    public static readonly ProblemKind DisplayDiffers = new(
        "HFB3021", Severity.Information, "code-invalid", 200, false, "Text of a code differs from the one in its value set", "Write the text of the value set, or none.");
    /// <summary>HFB3022: Value set cannot be checked here.</summary>
    public static readonly ProblemKind ValueSetNotInHand = Error("HFB3022", "not-supported", "Value set cannot be checked here", "Use an element whose codes are listed, or leave it out.");
    /// <summary>HFB3023: Code missing.</summary>
    public static readonly ProblemKind CodeMissing = Error("HFB3023", "required", "Code missing", "Give a code of the value set named.");
    /// <summary>HFB3024: Unit code not known here.</summary>
    public static readonly ProblemKind UnitNotKnown = Error("HFB3024", "code-invalid", "Unit code not known here", "Use a UCUM code of the list, such as s for seconds.");
    /// <summary>HFB3025: Quantity without a coded unit.</summary>
    public static readonly ProblemKind UnitMissing = Error("HFB3025", "required", "Quantity without a coded unit", "Give system http://unitsofmeasure.org and a UCUM code.");

    // 303x: references and entries of a bundle
    /// <summary>HFB3030: Reference to a resource that is not in the bundle.</summary>
    public static readonly ProblemKind TargetNotInBundle = Error("HFB3030", "not-found", "Reference to a resource that is not in the bundle", "Add the resource, or correct the reference.");
    /// <summary>HFB3031: Reference to a resource of the wrong type.</summary>
    public static readonly ProblemKind WrongTarget = Error("HFB3031", "structure", "Reference to a resource of the wrong type", "Refer to a resource of a type named.");
    /// <summary>HFB3032: Reference that cannot be followed.</summary>
    public static readonly ProblemKind UnreadableReference = Error("HFB3032", "value", "Reference that cannot be followed", "Correct the reference.");
    /// <summary>HFB3033: Two entries with the same address.</summary>
    public static readonly ProblemKind EntryTwice = Error("HFB3033", "duplicate", "Two entries with the same address", "Give each entry an address of its own.");
    /// <summary>HFB3034: Entry without a resource.</summary>
    public static readonly ProblemKind EntryEmpty = Error("HFB3034", "required", "Entry without a resource", "Add the resource or remove the entry.");

    // 304x: definitions that are named
    /// <summary>HFB3040: Extension not known here.</summary>
    public static readonly ProblemKind UnknownExtension = Error("HFB3040", "extension", "Extension not known here", "Remove it; only extensions of the profiles are written.");
    /// <summary>HFB3041: Profile or type not known here.</summary>
    public static readonly ProblemKind UnknownProfile = Error("HFB3041", "not-supported", "Profile or type not known here", "Name a profile of the package.");
    /// <summary>HFB3042: Resource claims none of the profiles.</summary>
    public static readonly ProblemKind ProfileNotClaimed = Error("HFB3042", "required", "Resource claims none of the profiles", "Name its profile in meta.profile.");

    // 305x: a set-up response against its questionnaire
    /// <summary>HFB3050: Questionnaire not known here.</summary>
    public static readonly ProblemKind UnknownQuestionnaire = Error("HFB3050", "not-found", "Questionnaire not known here", "Name a questionnaire of the package with its version.");
    /// <summary>HFB3051: Item the questionnaire does not have here.</summary>
    public static readonly ProblemKind UnknownItem = Error("HFB3051", "structure", "Item the questionnaire does not have here", "Remove it, or move it where the questionnaire has it.");
    /// <summary>HFB3052: Required answer missing.</summary>
    public static readonly ProblemKind AnswerMissing = Error("HFB3052", "required", "Required answer missing", "Answer the question.");
    /// <summary>HFB3053: Answer to a question that is not to be asked.</summary>
    public static readonly ProblemKind AnswerNotAsked = Error("HFB3053", "business-rule", "Answer to a question that is not to be asked", "Remove the answer, or correct the one it depends on.");
    /// <summary>HFB3054: Answer of the wrong type.</summary>
    public static readonly ProblemKind AnswerOfWrongType = Error("HFB3054", "structure", "Answer of the wrong type", "Answer with a value of the question's type.");
    /// <summary>HFB3055: Answer that is not offered.</summary>
    public static readonly ProblemKind AnswerNotOffered = Error("HFB3055", "code-invalid", "Answer that is not offered", "Choose one of the answers the questionnaire offers.");
    /// <summary>HFB3056: More answers than asked for.</summary>
    public static readonly ProblemKind TooManyAnswers = Error("HFB3056", "structure", "More answers than asked for", "Keep one.");
    /// <summary>HFB3057: Items out of order.</summary>
    public static readonly ProblemKind ItemsOutOfOrder = Error("HFB3057", "structure", "Items out of order", "Put the items in the questionnaire's order, those of one question together.");
    /// <summary>HFB3058: Answer longer than allowed.</summary>
    public static readonly ProblemKind AnswerTooLong = Error("HFB3058", "too-long", "Answer longer than allowed", "Shorten the answer.");
    /// <summary>HFB3059: Answer where none belongs.</summary>
    public static readonly ProblemKind AnswerMisplaced = Error("HFB3059", "structure", "Answer where none belongs", "A group has items and no answers; a question's items stand inside its answer.");

    // 309x: whatever else the validator finds
    /// <summary>HFB3090: Other finding of the validator.</summary>
    public static readonly ProblemKind OtherFinding = Error("HFB3090", "invalid", "Other finding of the validator", "Correct the element named.");

    /// <summary>Every kind, in the order of the codes.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(ValidationProblems));

    private static ProblemKind Error(string code, string issueType, string title, string remedy) =>
        new(code, Severity.Error, issueType, 422, false, title, remedy);
}
