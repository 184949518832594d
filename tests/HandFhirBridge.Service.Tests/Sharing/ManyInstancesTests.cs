using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Sharing;

/// <summary>Four processes of the service share one PostgreSQL ledger and deliver to one FHIR server over HTTP; one is killed.</summary>
public sealed class ManyInstancesTests(PostgresCluster cluster)
{
    private const int Sessions = 20;
    private const int KilledAfter = 13;

    [Fact]
    public async Task Serve_FourInstancesAndOneKilled_RecordsEverySessionOnce()
    {
        var cancellation = TestContext.Current.CancellationToken;
        using var folder = new DataFolder();
        var shared = await SharedAsync(folder, cancellation);
        var instances = new List<ServiceProcess>();
        // Its embedded record stands for the clinic's FHIR server; its own ledger stays empty.
        using var clinic = await ServiceProcess.StartAsync(Subfolder(folder, "clinic"), cancellation);
        await Clinic.LoadPatientsAsync(clinic.Record, cancellation);
        try
        {
            instances.AddRange(await Task.WhenAll(Enumerable.Range(1, 4).Select(n => ServiceProcess.StartAsync(
                Subfolder(folder, $"instance-{n}"), [.. shared, ("Target__BaseUrl", clinic.Record.BaseAddress!.AbsoluteUri)], cancellation))));

            var accepted = await SubmitAsync(instances, cancellation);
            foreach (var key in accepted)
            {
                // Whichever instance took a session in, each tells where it stands.
                await Clinic.DeliveredAsync(instances[0].Api, key, cancellation);
            }

            var reports = await Clinic.SearchAsync(clinic.Record, "DiagnosticReport?_count=50", cancellation);
            reports.Select(r => (string)r["identifier"]![0]!["value"]!).ShouldBe(accepted, ignoreOrder: true);
        }
        finally
        {
            instances.ForEach(instance => instance.Dispose());
        }
    }

    private static async Task<List<string>> SubmitAsync(List<ServiceProcess> instances, CancellationToken cancellation)
    {
        var accepted = new List<string>();
        for (var number = 0; number < Sessions; number++)
        {
            if (number == KilledAfter)
            {
                instances[3].Kill();
            }

            var instance = instances[number % (number < KilledAfter ? 4 : 3)];
            accepted.Add(await Clinic.SubmitAsync(instance.Api, await DocumentAsync(number, cancellation), cancellation));
        }

        return accepted;
    }

    private static async Task<string> DocumentAsync(int number, CancellationToken cancellation)
    {
        var example = Clinic.ExampleSessions[number % Clinic.ExampleSessions.Count];
        var document = JsonNode.Parse(await File.ReadAllTextAsync(example, cancellation))!;
        document["sessionId"] = $"{document["sessionId"]}-{number:00}";
        document["revision"] = 1;
        return document.ToJsonString();
    }

    private async Task<(string, string)[]> SharedAsync(DataFolder folder, CancellationToken cancellation) =>
    [
        ("Ledger__Store", "postgresql"),
        ("Ledger__ConnectionString", $"file:{folder.Write("connection", await cluster.CreateDatabaseAsync(cancellation))}"),
        ("Ledger__KeysDirectory", folder.File("keys")),
        ("Ledger__LeaseMinutes", "1"),
    ];

    private static string Subfolder(DataFolder folder, string name) => Directory.CreateDirectory(folder.File(name)).FullName;
}
