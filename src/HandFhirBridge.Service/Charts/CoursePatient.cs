using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Charts;

/// <summary>Whose chart is looked at, to be recognized by.</summary>
/// <param name="FamilyName">Family name as the record has it; null if it has none.</param>
/// <param name="GivenNames">Given names; empty if there are none.</param>
/// <param name="BirthDate">Birth date, <c>yyyy-MM-dd</c>; null if there is none.</param>
/// <param name="Identifiers">Values of the identifiers.</param>
public sealed record CoursePatient(string? FamilyName, string GivenNames, string? BirthDate, IReadOnlyList<string> Identifiers)
{
    /// <summary>What <paramref name="patient"/> says.</summary>
    public static CoursePatient Of(Patient patient)
    {
        ArgumentNullException.ThrowIfNull(patient);
        var name = patient.Name.FirstOrDefault(n => n.Use == HumanName.NameUse.Official) ?? patient.Name.FirstOrDefault();
        return new(name?.Family, string.Join(' ', name?.Given ?? []), patient.BirthDate, [.. patient.Identifier.Select(i => i.Value).OfType<string>()]);
    }
}
