using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Http;

/// <summary>The Prefer header (R4 http.html#ops, search.html#errors).</summary>
/// <param name="Return">What a write returns.</param>
/// <param name="Lenient">True where unknown search parameters are to be left out.</param>
internal sealed record Preference(ReturnPreference Return, bool Lenient)
{
    /// <summary>True where the client waits for the end of an operation elsewhere (R4 async.html).</summary>
    public bool Asynchronous { get; init; }

    public static Preference Of(HttpRequest request)
    {
        var parts = request.Headers["Prefer"].SelectMany(p => (p ?? "").Split([',', ';'], StringSplitOptions.TrimEntries)).ToList();
        var back = parts.Contains("return=minimal") ? ReturnPreference.Minimal
            : parts.Contains("return=OperationOutcome") ? ReturnPreference.OperationOutcome
            : parts.Contains("return=representation") ? ReturnPreference.Representation
            : ReturnPreference.Unsaid;
        return new(back, parts.Contains("handling=lenient")) { Asynchronous = parts.Contains("respond-async") };
    }

    /// <summary>The outcome of a write that went well.</summary>
    public static OperationOutcome Done(int status) => new()
    {
        Issue =
        [
            RecordRefusal.Issue(
                OperationOutcome.IssueSeverity.Information,
                OperationOutcome.IssueType.Informational,
                status switch { 201 => "Created.", 204 => "Deleted.", _ => "The resource stands." }),
        ],
    };
}
