using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Benchmarks;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Record.Tests.Peer;

/// <summary>
/// Searches answered by this record and by a server that others wrote (npm @medplum/fhir-router), both holding the published R4 examples
/// (Data/SOURCES.md), the example patients and sessions of this project.
/// </summary>
public sealed class SearchComparisonTests(RecordServer record) : IClassFixture<RecordServer>
{
    private static string Folder => Path.Combine(PeerServer.Root, "tests", "HandFhirBridge.Record.Tests", "Peer");

    [Fact]
    public async Task Search_BesideTheOtherServer_DiffersOnlyWhereTheTableSays()
    {
        Assert.SkipWhen(PeerServer.Missing is not null, PeerServer.Missing ?? "");
        var cancellation = TestContext.Current.CancellationToken;
        using var peer = await PeerServer.StartAsync(cancellation);
        foreach (var body in Resources())
        {
            await PutAsync(record.Client, body, cancellation);
            await PutAsync(peer.Http, body, cancellation);
        }

        var queries = File.ReadLines(Path.Combine(Folder, "queries.txt")).Where(l => l.Length > 0 && l[0] != '#').Select(SearchAnswer.Parse).ToList();
        var found = new List<string>();
        var same = 0;
        foreach (var query in queries)
        {
            var (ours, theirs) = (await query.AskAsync(record.Client, cancellation), await query.AskAsync(peer.Http, cancellation));
            if (ours == theirs)
            {
                same += ours.Length > 3 ? 1 : 0;
            }
            else
            {
                found.Add(SearchDifference.Describe(query.Query, ours, theirs));
            }
        }

        var listed = SearchDifference.Read(Path.Combine(Folder, "differences.json"));
        string.Join('\n', found).ShouldBe(string.Join('\n', listed.Select(d => d.Description)));
        queries.Count.ShouldBeGreaterThanOrEqualTo(60);
        // Equal because both found nothing, or refused, says little.
        same.ShouldBeGreaterThanOrEqualTo(40);
    }

    [Fact]
    public void Page_OfTheRecord_ShowsTheTable() => File.ReadAllText(Path.Combine(PeerServer.Root, "docs", "record.md")).ReplaceLineEndings("\n")
        .ShouldContain(SearchDifference.Table(SearchDifference.Read(Path.Combine(Folder, "differences.json"))));

    private static IEnumerable<string> Resources()
    {
        var serializer = new FhirJsonSerializer();
        foreach (var name in new[] { "patient", "practitioner", "practitionerrole", "organization", "device", "observation", "diagnosticreport" })
        {
            var json = JsonNode.Parse(RecordServer.Example($"{name}-example.json"))!;
            foreach (var resource in json["entry"] is JsonArray entries ? entries.Select(e => e!["resource"]!) : [json])
            {
                yield return resource.ToJsonString();
            }
        }

        var patients = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "patients.json")))!["entry"]!.AsArray();
        foreach (var patient in patients)
        {
            yield return patient!["resource"]!.ToJsonString();
        }

        foreach (var bundle in Corpus.Paths.Take(3).Select(Corpus.Bundle))
        {
            bundle.Type = Bundle.BundleType.Transaction;
            yield return serializer.SerializeToString(bundle);
        }
    }

    private static async Task PutAsync(HttpClient server, string body, CancellationToken cancellation)
    {
        using var json = JsonDocument.Parse(body);
        var type = json.RootElement.GetProperty("resourceType").GetString();
        using var request = type == "Bundle" ? new HttpRequestMessage(HttpMethod.Post, "") : new(HttpMethod.Put, $"{type}/{json.RootElement.GetProperty("id").GetString()}");
        request.Content = new StringContent(body, Encoding.UTF8, "application/fhir+json");
        using var answer = await server.SendAsync(request, cancellation);
        answer.IsSuccessStatusCode.ShouldBeTrue($"{server.BaseAddress} refuses {body[..Math.Min(90, body.Length)]}: {await answer.Content.ReadAsStringAsync(cancellation)}");
    }
}
