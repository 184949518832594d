using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Whose chart. Each part is null if absent or unreadable.</summary>
internal readonly record struct PatientSection(BusinessIdentifier? Identifier, string? FamilyName, DateOnly? BirthDate)
{
    public static PatientSection Read(Field field)
    {
        if (field.Object("identifier", "familyName", "birthDate") is not { } fields)
        {
            return default;
        }

        var identifier = IdentifierSection.Read(fields.Required("identifier"));
        var familyName = fields.Required("familyName").Name();
        return new(identifier, familyName, fields.Required("birthDate").Date());
    }
}
