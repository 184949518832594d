using System.Net;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Http;

/// <summary>A request the record refuses; unwinds a transaction and becomes an OperationOutcome at the HTTP edge.</summary>
/// <param name="status">HTTP status of the answer.</param>
/// <param name="type">FHIR issue type.</param>
/// <param name="message">One sentence for the caller; becomes <c>details.text</c>.</param>
/// <param name="expression">FHIRPath of the fault; null where the whole request is meant.</param>
internal sealed class RecordRefusal(HttpStatusCode status, OperationOutcome.IssueType type, string message, string? expression = null)
    : Exception(message)
{
    public HttpStatusCode Status { get; } = status;

    public OperationOutcome Outcome { get; init; } = new()
    {
        Issue =
        [
            new()
            {
                Severity = OperationOutcome.IssueSeverity.Error,
                Code = type,
                Details = new() { Text = message },
                Expression = expression is null ? [] : [expression],
            },
        ],
    };

    public static RecordRefusal BadRequest(string message, string? expression = null) =>
        new(HttpStatusCode.BadRequest, OperationOutcome.IssueType.Invalid, message, expression);

    public static RecordRefusal NotFound(string message) =>
        new(HttpStatusCode.NotFound, OperationOutcome.IssueType.NotFound, message);

    public static RecordRefusal Precondition(string message) =>
        new(HttpStatusCode.PreconditionFailed, OperationOutcome.IssueType.Conflict, message);
}
