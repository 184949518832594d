using Hl7.Fhir.Model;
using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Utility;

namespace HandFhirBridge.Service.Output;

/// <summary>Problems as a FHIR R4 OperationOutcome, and the HTTP status that goes with them.</summary>
public static class OutcomeResource
{
    /// <summary>System of the codes in <c>issue.details</c>.</summary>
    public const string CodeSystem = "https://handfhirbridge.example/fhir/CodeSystem/hfb-cs-problem";

    /// <summary>
    /// One issue a problem: code, severity, the sentence in <c>details.text</c>, the remedy and the value found in
    /// <c>diagnostics</c>, the location in <c>expression</c>. No problem at all gives the single issue "All OK".
    /// </summary>
    public static OperationOutcome Of(IEnumerable<Problem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        var outcome = new OperationOutcome { Issue = [.. problems.Select(IssueOf)] };
        if (outcome.Issue.Count == 0)
        {
            outcome.Issue.Add(new()
            {
                Severity = OperationOutcome.IssueSeverity.Information,
                Code = OperationOutcome.IssueType.Informational,
                Details = new() { Text = "All OK" },
            });
        }

        return outcome;
    }

    /// <summary>Status of an answer that carries <paramref name="problems"/>: the highest status among the errors, 200 if none is one.</summary>
    public static int StatusOf(IEnumerable<Problem> problems) =>
        problems.Where(p => p.Severity == Severity.Error).Select(p => p.Kind.HttpStatus).DefaultIfEmpty(StatusCodes.Status200OK).Max();

    /// <summary>One problem as an issue.</summary>
    public static OperationOutcome.IssueComponent IssueOf(Problem problem)
    {
        ArgumentNullException.ThrowIfNull(problem);
        return new()
        {
            Severity = problem.Severity switch
            {
                Severity.Error => OperationOutcome.IssueSeverity.Error,
                Severity.Warning => OperationOutcome.IssueSeverity.Warning,
                _ => OperationOutcome.IssueSeverity.Information,
            },
            Code = EnumUtility.ParseLiteral<OperationOutcome.IssueType>(problem.Kind.IssueType)
                ?? OperationOutcome.IssueType.Invalid,
            Details = new(CodeSystem, problem.Code) { Text = problem.Message },
            Diagnostics = Diagnostics(problem),
            Expression = problem.Location.Length == 0 ? [] : [problem.Location],
        };
    }

    private static string Diagnostics(Problem problem) =>
        string.Join(' ', new[]
        {
            problem.Place is null ? null : $"In {problem.Place}.",
            problem.Found is null ? null : $"Found: {problem.Found}.",
            problem.Remedy,
        }.OfType<string>());
}
