using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>One issue of a server's OperationOutcome.</summary>
/// <param name="Severity">As the server says; empty if it says nothing.</param>
/// <param name="Code">As the server says; empty if it says nothing.</param>
/// <param name="Text">Details, else diagnostics; empty if there are none.</param>
/// <param name="Expression">Where, as the server says; null if it does not.</param>
public sealed partial record AnswerIssue(string Severity, string Code, string Text, string? Expression)
{
    /// <summary>0-based entry of the sent bundle the issue is about; null if it does not say.</summary>
    public int? Entry
    {
        get
        {
            // FHIRPath counts from 0; the deprecated XPath location counts from 1.
            if (Expression is null)
            {
                return null;
            }

            return FhirPathEntry().Match(Expression) is { Success: true } path ? Number(path)
                : XPathEntry().Match(Expression) is { Success: true } xpath ? Number(xpath) - 1
                : null;
        }
    }

    /// <summary>The issues of an OperationOutcome, informational ones left out.</summary>
    public static IEnumerable<AnswerIssue> Of(JsonElement outcome) => outcome.Objects("issue").Select(Read).Where(i => i.Severity != "information");

    private static AnswerIssue Read(JsonElement issue) => new(
        issue.Text("severity") ?? "",
        issue.Text("code") ?? "",
        issue.Object("details").Text("text") ?? issue.Text("diagnostics") ?? "",
        First(issue, "expression") ?? First(issue, "location"));

    private static string? First(JsonElement issue, string name) =>
        issue.TryGetProperty(name, out var list) && list.ValueKind == JsonValueKind.Array
            && list.EnumerateArray().FirstOrDefault() is { ValueKind: JsonValueKind.String } text
            ? text.GetString()
            : null;

    private static int Number(Match match) => int.Parse(match.Groups[1].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^Bundle\.entry\[(\d{1,4})\]")]
    private static partial Regex FhirPathEntry();

    [GeneratedRegex(@"^/f:Bundle/f:entry\[(\d{1,4})\]")]
    private static partial Regex XPathEntry();
}
