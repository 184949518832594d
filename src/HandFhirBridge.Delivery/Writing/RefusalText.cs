using System.Text.RegularExpressions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>A server's refusal in a person's words: which task and hand each issue is about, and where in the resource.</summary>
public static partial class RefusalText
{
    private const int MostIssues = 10;

    /// <summary>Describes the answer; bodies that are no OperationOutcome are named by kind and size alone.</summary>
    public static string Of(TargetAnswer answer, SessionBundle? bundle)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var issues = answer.Issues.Take(MostIssues).Select(issue => Describe(issue, bundle)).ToList();
        return issues.Count == 0 ? answer.ToString() : $"HTTP {answer.Status}: {string.Join("; ", issues)}";
    }

    private static string Describe(AnswerIssue issue, SessionBundle? bundle)
    {
        var where = issue.Entry is { } index && index >= 0 && index < bundle?.Entries.Length
            ? $"{bundle.Entries[index].Label} ({BundlePrefix().Replace(issue.Expression!, bundle.Entries[index].Type)})"
            : issue.Expression;
        return $"{(string.IsNullOrEmpty(where) ? "" : where + ": ")}{issue.Code} {issue.Text}".TrimEnd();
    }

    // Up to the resource; some servers write its type or id behind it, as a cast or a comment.
    [GeneratedRegex(@"^(?:Bundle\.entry\[\d+\]|/f:Bundle/f:entry\[\d+\])(?:[./](?:f:)?resource(?:\.ofType\(\w+\)|\.as\(\w+\)|/\*.*?\*/)?)?")]
    private static partial Regex BundlePrefix();
}
