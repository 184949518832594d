using System.Runtime.CompilerServices;
using HandFhirBridge.Fhir.Profiles;

namespace HandFhirBridge.Fhir.Tests.Profiles;

public sealed class CoreDefinitionsTests
{
    private const string Regenerate = "HFB_REGENERATE";

    [Fact]
    public async Task Committed_core_definitions_are_what_the_specification_gives()
    {
        var builder = new CoreDefinitionsBuilder();
        var fresh = await builder.BuildAsync();
        if (Environment.GetEnvironmentVariable(Regenerate) == "1")
        {
            CoreDefinitionsBuilder.Write(CommittedPath(), fresh);
            Assert.Skip("r4-core.zip has been written anew; build and test again without HFB_REGENERATE.");
        }

        var committed = new CoreDefinitions();
        var stale = fresh.Keys.Union(committed.Canonicals)
            .Where(canonical => !fresh.TryGetValue(canonical, out var content) || !content.AsSpan().SequenceEqual(committed.Read(canonical)));
        stale.ShouldBeEmpty($"Run the test with {Regenerate}=1 to write r4-core.zip anew.");
    }

    private static string CommittedPath([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../../src/HandFhirBridge.Fhir/Profiles/Core/r4-core.zip"));
}
