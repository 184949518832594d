using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>The kit of materials as a Device. Sessions share it, so nothing of a session is in it.</summary>
internal static class KitMapper
{
    public static Device Map(SessionContext context, Kit kit)
    {
        var key = context.Keys.Kit(kit);
        var serial = kit.SerialNumber is { } number ? $", serial number {number}" : "";
        return new()
        {
            Id = ResourceIds.Of(IdentifierSystems.Kit, key),
            Meta = new() { Profile = [Canonicals.Kit] },
            Text = Xhtml.Narrative(Xhtml.Paragraph($"Kit of materials: {kit.Name}{serial}.")),
            Identifier = [new Identifier(IdentifierSystems.Kit, key)],
            SerialNumber = kit.SerialNumber,
            DeviceName = [new() { Name = kit.Name, Type = DeviceNameType.UserFriendlyName }],
        };
    }
}
