using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>The performer's own conclusion on a report, and when it was signed; the report's conclusion repeats it in context.</summary>
internal static class SignedWords
{
    public const string Text = "text";
    public const string SignedAt = "signedAt";

    public static Extension Of(SignedConclusion conclusion) => new()
    {
        Url = Extensions.SignedConclusion,
        Extension = [new(Text, new FhirString(conclusion.Text)), new(SignedAt, new FhirDateTime(conclusion.SignedAt))],
    };
}
