using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Gather;

namespace HandFhirBridge.Outcomes.Tests.Gather;

/// <summary>A gathered set in a folder of its own and the answers of a scripted server.</summary>
internal sealed class Scene : IDisposable
{
    public const string Observations = "/fhir/Observation?category=http://hl7.org/fhir/sid/icf|d440&_count=200";
    public const string Reports = "/fhir/DiagnosticReport?code=https://handfhirbridge.example/fhir/CodeSystem/hfb-cs-measure|seven-task-report&_count=200";
    public const string Export = "/fhir/$export?_type=Observation,DiagnosticReport,Patient,Condition";

    private readonly string folder = Directory.CreateTempSubdirectory("hfb-gather-").FullName;

    public GatheredSet Set => new(folder);

    public ScriptedServer Server { get; } = new();

    public ScriptedServer Files { get; } = new();

    /// <summary>A server that offers no export, has no report, and answers for the patient p1.</summary>
    public static Scene OfPages()
    {
        var scene = new Scene();
        scene.Server.On("/fhir/metadata", Capabilities(export: false)).On(Reports, Bundle()).On("/fhir/Patient?_id=p1&_count=30", Bundle(Patient("p1")))
            .On("/fhir/Condition?patient=p1&_count=200", Bundle());
        return scene;
    }

    public static string Capabilities(bool export) => export
        ? """{"resourceType": "CapabilityStatement", "rest": [{"mode": "server", "operation": [{"name": "export", "definition": "http://hl7.org/fhir/uv/bulkdata/OperationDefinition/export"}]}]}"""
        : """{"resourceType": "CapabilityStatement", "rest": [{"mode": "server"}]}""";

    public static string Trial(string id, string seconds = "12.40", string updated = "2026-04-01T10:00:00Z", string patient = "p1", string category = "d440") =>
        $$"""{"resourceType": "Observation", "id": "{{id}}", "meta": {"lastUpdated": "{{updated}}"}, "identifier": [{"system": "https://handfhirbridge.example/identifier/trial", "value": "north/S-{{id}}/writing/left"}], "category": [{"coding": [{"system": "http://hl7.org/fhir/sid/icf", "code": "{{category}}"}]}], "subject": {"reference": "Patient/{{patient}}"}, "note": [{"text": "Mrs. Invented was tired"}], "valueQuantity": {"value": {{seconds}} } }""";

    public static string Patient(string id) =>
        $$"""{"resourceType": "Patient", "id": "{{id}}", "name": [{"family": "Invented"}], "birthDate": "1960-01-01"}""";

    public static string Bundle(params string[] resources) => Page(null, resources);

    public static string Page(string? next, params string[] resources) =>
        $$"""{"resourceType": "Bundle", "type": "searchset", "link": [{{(next is null ? "" : $$"""{"relation": "next", "url": "{{next}}"}""")}}], "entry": [{{string.Join(", ", resources.Select(r => $$"""{"resource": {{r}}, "search": {"mode": "match"} }"""))}}]}""";

    public Task<ImmutableArray<SourceResult>> GatherAsync(bool full = false) => GatherAsync([Source("north", Server)], full);

    public async Task<SourceResult> OneAsync(bool full = false) => (await GatherAsync(full)).ShouldHaveSingleItem();

    public Task<ImmutableArray<SourceResult>> GatherAsync(IReadOnlyList<GatherSource> sources, bool full = false) =>
        new Gatherer(Set, new GatherOptions { Full = full, Tries = 2, Pause = TimeSpan.Zero, LongestPause = TimeSpan.Zero }, TimeProvider.System)
            .GatherAsync(sources, new Silence(), TestContext.Current.CancellationToken);

    public GatherSource Source(string name, ScriptedServer server) =>
        new(name, new Uri($"https://{name}.example/fhir/"), new HttpClient(server, disposeHandler: false), new HttpClient(Files, disposeHandler: false));

    public IReadOnlyList<string> Held(string type, string source = "north") =>
        File.Exists(Set.File(source, type)) ? [.. File.ReadAllLines(Set.File(source, type))] : [];

    public void Dispose()
    {
        Directory.Delete(folder, recursive: true);
        Server.Dispose();
        Files.Dispose();
    }

    private sealed class Silence : IProgress<GatherProgress>
    {
        public void Report(GatherProgress value)
        {
        }
    }
}
