using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>The performer's own conclusion of a report; null where nobody signed one.</summary>
internal static class ConclusionReading
{
    public static SignedConclusion? Read(DiagnosticReport report, Place place)
    {
        var found = report.Extension.Where(e => e.Url == Extensions.SignedConclusion).ToList();
        if (found.Count == 0)
        {
            return null;
        }

        var at = place.At($"extension('{Extensions.SignedConclusion}')");
        if (found is not [var signed])
        {
            at.NotUnderstood($"{found.Count} signed conclusions", "one signed conclusion");
            return null;
        }

        var text = Elements.Extension<FhirString>(signed, SignedWords.Text, at)?.Value;
        var moment = Elements.Extension<FhirDateTime>(signed, SignedWords.SignedAt, at) is { } value
            ? Elements.Moment(value, at.At($"extension('{SignedWords.SignedAt}')"))
            : null;
        return text is null || moment is null ? null : new(text, moment.Value);
    }
}
