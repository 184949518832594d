using System.Diagnostics;
using System.Text.Json;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Tests.Rows;
using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>Our own views, run by our runner and by an engine that others wrote (npm fhirpath, tests/peers/view-rows.mjs), over the same resources.</summary>
public sealed class PeerEngineTests
{
    private static string Peers => Path.Combine(PublishedFile.Root, "tests", "peers");

    private static string Condition(string id) =>
        $$"""{"resourceType": "Condition", "id": "{{id}}", "subject": {"reference": "Patient/p1"}, "clinicalStatus": {"coding": [{"code": "active"}]}, "code": {"coding": [{"system": "urn:invented", "code": "a"}, {"system": "urn:invented", "code": "b", "display": "B"}]}, "onsetDateTime": "2026-01"}""";

    [Theory]
    [InlineData("trials", "Observation")]
    [InlineData("totals", "Observation")]
    [InlineData("reports", "DiagnosticReport")]
    [InlineData("patients", "Patient")]
    [InlineData("conditions", "Condition")]
    public async Task Rows_OfOwnView_AreThoseOfAnotherEngine(string view, string type)
    {
        Assert.SkipUnless(Directory.Exists(Path.Combine(Peers, "node_modules")), "tests/peers/node_modules is absent; run npm ci in tests/peers.");
        using var invented = new InventedSet();
        invented.Write("a", Examples());

        var theirs = await TheirsAsync(view, invented.Set.File("a", type));

        var rows = new ViewRows(invented.Set, StandardViews.Named(view)!);
        rows.Read().Select(row => Text(rows.Columns.Zip(row, (c, v) => (c.Name, v)).Skip(1))).ShouldBe(theirs);
        theirs.ShouldNotBeEmpty();
    }

    private static IEnumerable<System.Text.Json.Nodes.JsonNode> Examples() =>
    [
        .. Directory.GetFiles(Path.Combine(PublishedFile.Root, "profiles", "package", "example"), "*.json")
            .Select(f => Path.GetFileNameWithoutExtension(f)!).Where(n => n.StartsWith("Observation", StringComparison.Ordinal) || n.StartsWith("DiagnosticReport", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal).Select((n, i) => InventedSet.Example(n, $"r{i}", $"north/S-{i}/writing/left")),
        System.Text.Json.Nodes.JsonNode.Parse("""{"resourceType": "Patient", "id": "p1", "gender": "female", "birthDate": "1960-05", "link": [{"type": "replaced-by", "other": {"reference": "Patient/p2"}}]}""")!,
        System.Text.Json.Nodes.JsonNode.Parse(Condition("c1"))!,
    ];

    private static async Task<List<string>> TheirsAsync(string view, string resources)
    {
        var file = Path.Combine(PublishedFile.Root, "profiles", "views", $"ViewDefinition-hfb-{view}.json");
        using var node = Process.Start(new ProcessStartInfo("node", ["view-rows.mjs", file, resources]) { WorkingDirectory = Peers, RedirectStandardOutput = true })!;
        var output = await node.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await node.WaitForExitAsync(TestContext.Current.CancellationToken);
        node.ExitCode.ShouldBe(0);
        return [.. output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line =>
        {
            using var row = JsonDocument.Parse(line);
            return Text(row.RootElement.EnumerateObject().Select(p => (p.Name, (object?)p.Value.Clone())));
        })];
    }

    // By value: JavaScript knows 105 and not 105.0.
    private static string Text(IEnumerable<(string Name, object? Value)> cells) => string.Join(", ", cells.Select(c => $"{c.Name}={Json(c.Value)}"));

    private static string Json(object? value) => JsonSerializer.SerializeToElement(value) is var json && json.ValueKind == JsonValueKind.Number
        ? json.GetDecimal().ToString("0.######", System.Globalization.CultureInfo.InvariantCulture)
        : json.GetRawText();
}
