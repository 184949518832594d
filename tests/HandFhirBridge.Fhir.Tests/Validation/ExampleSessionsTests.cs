using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed class ExampleSessionsTests
{
    public static TheoryData<string> Examples => [.. Repository.ExampleSessions().Select(path => Path.GetRelativePath(Repository.Root, path))];

    [Theory]
    [MemberData(nameof(Examples))]
    public void Validate_ExampleSession_FindsNothing(string path)
    {
        var bundle = Mapped.Map(Mapped.Session(Path.Combine(Repository.Root, path)));

        var problems = SessionValidator.Shared.ValidateFully(bundle);

        problems.ShouldBeEmpty();
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void ValidateJson_ExampleSessionAsText_FindsNothing(string path)
    {
        var bundle = Mapped.Map(Mapped.Session(Path.Combine(Repository.Root, path)));

        var problems = SessionValidator.Shared.ValidateJson(System.Text.Encoding.UTF8.GetBytes(FhirText.Of(bundle)));

        problems.ShouldBeEmpty();
    }
}
