using System.Net;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Http;

/// <summary>A request the record refuses: unwinds the transaction and becomes an OperationOutcome at the HTTP edge.</summary>
internal sealed class RecordRefusal : Exception
{
    public RecordRefusal(HttpStatusCode status, IReadOnlyList<OperationOutcome.IssueComponent> issues)
    {
        (Status, Issues) = (status, issues);
    }

    /// <param name="status">HTTP status of the answer.</param>
    /// <param name="type">FHIR issue type.</param>
    /// <param name="message">A sentence or two for the caller: what is wrong, and the remedy.</param>
    /// <param name="expression">FHIRPath of the fault; null where the whole request is meant.</param>
    public RecordRefusal(HttpStatusCode status, OperationOutcome.IssueType type, string message, string? expression = null)
        : this(status, [Issue(OperationOutcome.IssueSeverity.Error, type, message, expression)])
    {
    }

    public HttpStatusCode Status { get; }

    public IReadOnlyList<OperationOutcome.IssueComponent> Issues { get; }

    public OperationOutcome Outcome => new() { Issue = [.. Issues] };

    public static RecordRefusal BadRequest(string message, string? expression = null) =>
        new(HttpStatusCode.BadRequest, OperationOutcome.IssueType.Invalid, message, expression);

    public static RecordRefusal NotFound(string message) =>
        new(HttpStatusCode.NotFound, OperationOutcome.IssueType.NotFound, message);

    public static RecordRefusal Precondition(string message) =>
        new(HttpStatusCode.PreconditionFailed, OperationOutcome.IssueType.Conflict, message);

    public static OperationOutcome.IssueComponent Issue(
        OperationOutcome.IssueSeverity severity, OperationOutcome.IssueType type, string message, string? expression = null) => new()
    {
        Severity = severity,
        Code = type,
        Details = new() { Text = message },
        Expression = expression is null ? [] : [expression],
    };

    /// <summary>The same refusal, placed at an entry of a bundle.</summary>
    /// <param name="entry">FHIRPath of the entry.</param>
    public RecordRefusal At(string entry)
    {
        foreach (var issue in Issues)
        {
            var inner = issue.Expression.FirstOrDefault();
            issue.Expression = inner is null
                ? [entry]
                : [inner.StartsWith("Bundle.", StringComparison.Ordinal) ? inner : $"{entry}.resource{inner[Math.Max(0, inner.IndexOf('.', StringComparison.Ordinal))..]}"];
        }

        return new(Status, Issues);
    }
}
