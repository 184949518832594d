using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Validation.Schemas;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>Which kind of problem an issue of the FHIR validator is. Numbers are those of the library's table of issues.</summary>
internal static class IssueTranslation
{
    /// <summary>The kind, and how grave this occurrence is.</summary>
    internal static (ProblemKind Kind, Severity Severity) KindOf(OperationOutcome.IssueComponent issue)
    {
        var kind = KindOf(Number(issue), issue.Details?.Text ?? string.Empty);
        return kind == ValidationProblems.OtherFinding ? (kind, SeverityOf(issue.Severity)) : (kind, kind.Severity);
    }

    private static ProblemKind KindOf(int number, string text) => number switch
    {
        1000 => ValidationProblems.EmptyElement,
        1001 => ValidationProblems.UnknownElement,
        1003 or 1004 or 1010 or 1011 or 1029 => ValidationProblems.WrongType,
        1005 or 1019 or 1020 or 1021 => ValidationProblems.OutOfRange,
        1006 => ValidationProblems.InvalidValue,
        1008 or 1009 => ValidationProblems.FixedValueDiffers,
        1012 => ValidationProblems.RuleBroken,
        1013 => ValidationProblems.PracticeNotFollowed,
        1015 or 1016 or 1017 or 1018 => ValidationProblems.UnreadableReference,
        1026 or 1027 or 2013 => ValidationProblems.SliceNotAllowed,
        1028 => ValidationProblems.WrongCount,
        4000 when text.Contains("extension", StringComparison.Ordinal) => ValidationProblems.UnknownExtension,
        4000 or 4002 or 4003 or 4009 => ValidationProblems.UnknownProfile,
        6001 or 6002 => ValidationProblems.CodeNotInValueSet,
        6007 when text.StartsWith("Terminology service failed", StringComparison.Ordinal) => ValidationProblems.ValueSetNotInHand,
        6007 => ValidationProblems.CodeNotInValueSet,
        6003 or 6006 => ValidationProblems.DisplayDiffers,
        6005 or 6008 => ValidationProblems.CodeMissing,
        OwnIssues.WrongTarget => ValidationProblems.WrongTarget,
        _ => ValidationProblems.OtherFinding,
    };

    private static int Number(OperationOutcome.IssueComponent issue) =>
        int.TryParse(issue.Details?.Coding.FirstOrDefault()?.Code, out var number) ? number : 0;

    private static Severity SeverityOf(OperationOutcome.IssueSeverity? severity) => severity switch
    {
        OperationOutcome.IssueSeverity.Information => Severity.Information,
        OperationOutcome.IssueSeverity.Warning => Severity.Warning,
        _ => Severity.Error,
    };
}
