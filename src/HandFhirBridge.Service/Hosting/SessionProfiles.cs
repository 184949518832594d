using System.Text.Json;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Record;
using HandFhirBridge.Service.Output;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Hosting;

/// <summary>This project's profiles, for <c>$validate</c> of the embedded record: by the validator that what is delivered has passed.</summary>
internal sealed class SessionProfiles : IRecordProfiles
{
    /// <inheritdoc/>
    public IReadOnlyList<RecordProfile> All { get; } =
    [
        .. ProfilePackage.Paths.Where(path => path.StartsWith("StructureDefinition-", StringComparison.Ordinal)).Select(Read).OfType<RecordProfile>(),
    ];

    /// <inheritdoc/>
    public IEnumerable<OperationOutcome.IssueComponent> Check(Resource resource, RecordProfile profile)
    {
        var claiming = (Resource)resource.DeepCopy();
        (claiming.Meta ??= new()).Profile = [profile.Url];
        return SessionValidator.Shared.Validate(claiming).Select(OutcomeResource.IssueOf);
    }

    // Extensions are checked where they are used.
    private static RecordProfile? Read(string path)
    {
        using var definition = JsonDocument.Parse(ProfilePackage.Read(path));
        string Text(string name) => definition.RootElement.GetProperty(name).GetString()!;
        return Text("kind") == "resource" ? new(Text("url"), Text("version"), Text("type")) : null;
    }
}
