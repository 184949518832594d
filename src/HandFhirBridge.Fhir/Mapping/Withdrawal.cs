namespace HandFhirBridge.Fhir.Mapping;

/// <summary>That a session was entered in error, as a person said.</summary>
/// <param name="Session">Site and session id.</param>
/// <param name="Revision">Revision that the withdrawal is; one above the last.</param>
/// <param name="Withdrawn">Revision whose resources are withdrawn.</param>
/// <param name="DocumentSha256">SHA-256 of that revision's document, lower-case hexadecimal.</param>
/// <param name="Reason">Why, in the person's words.</param>
/// <param name="By">Who withdrew.</param>
/// <param name="At">When, with offset.</param>
public sealed record Withdrawal(
    SessionKeys Session, int Revision, int Withdrawn, string DocumentSha256, string Reason, string By, DateTimeOffset At);
