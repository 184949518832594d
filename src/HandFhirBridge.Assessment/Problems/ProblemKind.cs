namespace HandFhirBridge.Assessment.Problems;

/// <summary>One row of the table of expected failures: everything about a failure that does not depend on the occasion.</summary>
/// <param name="Code">Stable code, <c>HFB</c> and four digits; never reused. First digit: 1 intake, 2 norms and scoring, 3 mapping and validation, 4 delivery and identity, 5 ledger, 6 service and settings, 7 outcomes.</param>
/// <param name="Severity">Default severity of an occurrence.</param>
/// <param name="IssueType">Code of the FHIR R4 value set <c>issue-type</c> used in an OperationOutcome.</param>
/// <param name="HttpStatus">Status the HTTP API answers with when this is the gravest problem.</param>
/// <param name="Retryable">True if the same input may succeed later without being changed.</param>
/// <param name="Title">What is wrong, in a few words, without values.</param>
/// <param name="Remedy">What the reader can do about it, one sentence in the imperative.</param>
public sealed record ProblemKind(
    string Code, Severity Severity, string IssueType, int HttpStatus, bool Retryable, string Title, string Remedy)
{
    /// <summary>An occurrence of this kind.</summary>
    /// <param name="location">Where: a JSON path for a document, a FHIRPath for a resource, a setting's name; empty if it concerns the whole.</param>
    /// <param name="message">One plain sentence that names the field and the value found.</param>
    /// <param name="found">The offending value as it was written; null if there is none to show.</param>
    /// <param name="remedy">A remedy more exact than <see cref="Remedy"/>; null to keep that one.</param>
    public Problem At(string location, string message, string? found = null, string? remedy = null) =>
        new(this, Severity, location, message, found, remedy ?? Remedy);
}
