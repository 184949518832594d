using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Extraction;

/// <summary>What can be wrong with a response to the whole-session Questionnaire beyond its answers. Codes HFB3301 to HFB3399.</summary>
public static class ExtractionProblems
{
    /// <summary>HFB3301: No questionnaire response.</summary>
    public static readonly ProblemKind NoResponse = Error("HFB3301", "required",
        "No questionnaire response", "Send a QuestionnaireResponse, or Parameters with exactly one parameter questionnaire-response that holds it.");

    /// <summary>HFB3302: Response to another questionnaire.</summary>
    public static readonly ProblemKind OtherQuestionnaire = Error("HFB3302", "not-supported",
        "Response to another questionnaire", "Fill in the whole-session Questionnaire of this package and name it in questionnaire.");

    /// <summary>HFB3303: Response not completed.</summary>
    public static readonly ProblemKind NotCompleted = Error("HFB3303", "business-rule",
        "Response not completed", "Complete the form first; the status is then completed, or amended for a correction.");

    /// <summary>HFB3304: Subject and answers name different patients.</summary>
    public static readonly ProblemKind OtherSubject = Error("HFB3304", "conflict",
        "Subject and answers name different patients", "Find out whom the session is of, and correct the subject or the answers.");

    /// <summary>HFB3305: Answer with a comparator.</summary>
    public static readonly ProblemKind Comparator = Error("HFB3305", "value",
        "Answer with a comparator", "Write the number measured without a comparator; that a trial was stopped is its outcome.");

    /// <summary>HFB3306: Response may mean something else.</summary>
    public static readonly ProblemKind ModifierNotUnderstood = Error("HFB3306", "extension",
        "Response may mean something else", "Remove the modifier extension or implicit rules; R4 forbids to ignore them.");

    /// <summary>Every kind, by code.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(ExtractionProblems));

    private static ProblemKind Error(string code, string issueType, string title, string remedy) =>
        new(code, Severity.Error, issueType, 422, false, title, remedy);
}
