using System.Text.RegularExpressions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>A server's refusal in a person's words: which task and hand each issue is about, and where in the resource.</summary>
public static partial class RefusalText
{
    private const int MostIssues = 10;

    /// <summary>Describes the answer to a transaction or a search; bodies that are no OperationOutcome are named by kind and size alone.</summary>
    public static string Of(TargetAnswer answer, SessionBundle? bundle)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return Of(answer, issue => Entry(issue, bundle) is { } entry ? $"{entry.Label} ({Element(issue, entry)})" : issue.Expression);
    }

    /// <summary>Describes the answer to a write of one resource.</summary>
    public static string Of(TargetAnswer answer, SessionEntry entry)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(entry);
        return $"{entry.Label}: {Of(answer, issue => issue.Expression)}";
    }

    /// <summary>The answer without anything that could quote the session: status and codes of issues.</summary>
    public static string Brief(TargetAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var codes = answer.Issues.Select(issue => issue.Code).Where(code => IssueCode().IsMatch(code)).Distinct().Take(MostIssues).ToList();
        return codes.Count == 0 ? answer.ToString() : $"HTTP {answer.Status} ({string.Join(", ", codes)})";
    }

    /// <summary>True if an issue points at an element inside a resource of the session.</summary>
    public static bool IsAboutContent(TargetAnswer answer, SessionBundle bundle)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Issues.Any(issue => Entry(issue, bundle) is { } entry && Content().IsMatch(Element(issue, entry)));
    }

    /// <summary>True if an issue points at an element inside the resource that was written by itself.</summary>
    public static bool IsAboutContent(TargetAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Issues.Any(issue => issue.Expression is { } expression && Content().IsMatch(expression));
    }

    private static string Of(TargetAnswer answer, Func<AnswerIssue, string?> where)
    {
        var issues = answer.Issues.Take(MostIssues).Select(issue => Describe(issue, where(issue))).ToList();
        return issues.Count == 0 ? answer.ToString() : $"HTTP {answer.Status}: {string.Join("; ", issues)}";
    }

    private static string Describe(AnswerIssue issue, string? where) =>
        $"{(string.IsNullOrEmpty(where) ? "" : where + ": ")}{issue.Code} {issue.Text}".TrimEnd();

    private static SessionEntry? Entry(AnswerIssue issue, SessionBundle? bundle) =>
        issue.Entry is { } index && index >= 0 && index < bundle?.Entries.Length ? bundle.Entries[index] : null;

    private static string Element(AnswerIssue issue, SessionEntry entry) => BundlePrefix().Replace(issue.Expression!, entry.Type);

    // Up to the resource; some servers write its type or id behind it, as a cast or a comment.
    [GeneratedRegex(@"^(?:Bundle\.entry\[\d+\]|/f:Bundle/f:entry\[\d+\])(?:[./](?:f:)?resource(?:\.ofType\(\w+\)|\.as\(\w+\)|/\*.*?\*/)?)?")]
    private static partial Regex BundlePrefix();

    // An element below the resource; its id, or the request beside it, is a matter of the way of writing.
    [GeneratedRegex(@"^[A-Z][A-Za-z]+[./](?!id$|request|fullUrl)[a-z]")]
    private static partial Regex Content();

    [GeneratedRegex("^[a-z-]{1,30}$")]
    private static partial Regex IssueCode();
}
