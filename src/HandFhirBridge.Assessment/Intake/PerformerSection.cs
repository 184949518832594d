using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Who gave the test.</summary>
internal static class PerformerSection
{
    public static Performer? Read(Field field)
    {
        if (field.Object("identifier", "name", "role") is not { } fields)
        {
            return null;
        }

        var identifier = IdentifierSection.Read(fields.Required("identifier"));
        var name = fields.Required("name").Name();
        var role = fields.Required("role").Choice<PerformerRole>();
        return identifier is null || name is null || role is null ? null : new Performer(identifier, name, role.Value);
    }
}
