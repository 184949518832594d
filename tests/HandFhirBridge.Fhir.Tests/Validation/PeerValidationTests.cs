using System.Diagnostics;
using HandFhirBridge.Fhir.Tests.Mapping;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>The base definitions again, in a validator that others wrote: npm @medplum/core.</summary>
public sealed class PeerValidationTests
{
    [Fact]
    public async Task CheckBase_EveryResourceOfEveryExample_HasNoError()
    {
        var bundles = Repository.ExampleSessions().Select(path => FhirText.Of(Mapped.Map(Mapped.Session(path))));

        var (exitCode, output) = await RunAsync(bundles);

        exitCode.ShouldBe(0, output);
    }

    [Fact]
    public async Task CheckBase_ResourceWithoutStatus_HasAnError()
    {
        var bundle = Mapped.Map(Mapped.Session(Repository.ExampleSessions().First()));
        bundle.Entry.Select(entry => entry.Resource).OfType<Hl7.Fhir.Model.Observation>().First().Status = null;

        var (exitCode, output) = await RunAsync([FhirText.Of(bundle)]);

        exitCode.ShouldBe(1, output);
    }

    private static async Task<(int ExitCode, string Output)> RunAsync(IEnumerable<string> bundles)
    {
        var peers = Path.Combine(Repository.Root, "tests", "peers");
        Assert.SkipUnless(Directory.Exists(Path.Combine(peers, "node_modules", "@medplum", "core")), "The second validator is not installed: npm ci in tests/peers.");
        using var node = Process.Start(new ProcessStartInfo("node", ["check-base.mjs", "-"])
        {
            WorkingDirectory = peers,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        })!;
        foreach (var bundle in bundles)
        {
            await node.StandardInput.WriteLineAsync(bundle);
        }

        node.StandardInput.Close();
        var output = await node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (node.ExitCode, output);
    }
}
