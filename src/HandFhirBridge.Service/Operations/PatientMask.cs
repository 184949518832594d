using System.Globalization;
using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Operations;

/// <summary>
/// Takes the patient out of texts that others wrote: a server may quote a name or number in its answer, a person in a reason.
/// Whoever looks after the ledger needs the sentence, not the patient.
/// </summary>
/// <param name="patient">Whose session the texts are about; null leaves nothing but <see cref="Unreadable"/>.</param>
public sealed class PatientMask(PatientIdentity? patient)
{
    /// <summary>Stands where something of the patient stood.</summary>
    public const string Mark = "[patient]";

    /// <summary>Stands for a text that cannot be masked, as who the patient is cannot be read.</summary>
    public const string Unreadable = "[not shown]";

    private readonly Regex? words = patient is null ? null : Words(patient);

    /// <summary>The text without family name, identifier and birth date; null stays null.</summary>
    public string? Hide(string? text) => text is null ? null : words?.Replace(text, Mark) ?? Unreadable;

    private static Regex Words(PatientIdentity patient)
    {
        var date = patient.BirthDate;
        var parts = new[]
        {
            patient.FamilyName,
            patient.Identifier.Value,
            date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            date.ToString("yyyyMMdd", CultureInfo.InvariantCulture),
            date.ToString("dd.MM.yyyy", CultureInfo.InvariantCulture),
            date.ToString("dd/MM/yyyy", CultureInfo.InvariantCulture),
            date.ToString("MM/dd/yyyy", CultureInfo.InvariantCulture),
        };
        // A short name is no part of a longer word, and a space may be written more than once.
        var alternatives = parts.Where(part => !string.IsNullOrWhiteSpace(part)).OrderByDescending(part => part.Length)
            .Select(part => Regex.Escape(part.Trim()).Replace("\\ ", "\\s+", StringComparison.Ordinal));
        return new($@"(?<![\p{{L}}\p{{N}}])(?:{string.Join('|', alternatives)})(?![\p{{L}}\p{{N}}])", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant);
    }
}
