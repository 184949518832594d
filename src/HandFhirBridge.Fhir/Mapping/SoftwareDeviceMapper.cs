using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>The software that scored and mapped, one Device a version. Sessions share it, so nothing of a session is in it.</summary>
internal static class SoftwareDeviceMapper
{
    /// <summary>Name of the product.</summary>
    public const string Name = "HandFhirBridge";

    public static Device Map(SessionContext context)
    {
        var version = context.Options.SoftwareVersion;
        return new()
        {
            Id = ResourceIds.Of(IdentifierSystems.Software, version),
            Meta = new() { Profile = [Canonicals.Software] },
            Text = Xhtml.Narrative(Xhtml.Paragraph($"{Name} version {version}, software that scores hand function tests.")),
            Identifier = [new Identifier(IdentifierSystems.Software, version)],
            DeviceName = [new() { Name = Name, Type = DeviceNameType.ModelName }],
            Version = [new() { Value = version }],
        };
    }
}
