using System.Diagnostics;
using System.Net.Http.Headers;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Service.Cli;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Submission;

namespace HandFhirBridge.Service.Demo;

/// <summary>Submits the examples to a running service and reads their reports back from the record.</summary>
/// <param name="host">The service, on a fresh data directory.</param>
/// <param name="terminal">Where reports go.</param>
public sealed class Demonstration(BridgeHost host, CommandTerminal terminal)
{
    private static readonly string[] CountedTypes =
        ["Device", "DiagnosticReport", "Observation", "Organization", "Patient", "Practitioner", "Provenance", "QuestionnaireResponse"];

    /// <summary>Loads the patients, submits every example session and waits for its delivery.</summary>
    public async Task<DemoResult> RunAsync(string rejects, Progress progress, CancellationToken cancellation)
    {
        var elapsed = Stopwatch.StartNew();
        await LoadPatientsAsync(cancellation);
        var ledger = host.Services.GetRequiredService<ILedger>();
        var submitted = await new Submitter(host.Services.GetRequiredService<BridgeParts>(), ledger)
            .SubmitAsync([DemoExamples.Sessions], terminal, rejects, progress, cancellation);
        var tally = await DeliveryWait.WatchAsync(ledger, submitted.Keys, progress, cancellation);
        progress.Clear();
        return new(
            submitted.Accepted, tally.Delivered, tally.Held, submitted.Rejected, await CountAsync(cancellation), elapsed.ElapsedMilliseconds);
    }

    /// <summary>Prints, for each patient, the report of the last visit as the record holds it.</summary>
    public async Task PrintAsync(CancellationToken cancellation)
    {
        var ledger = host.Services.GetRequiredService<ILedger>();
        var recorded = host.Services.GetRequiredService<RecordedReports>();
        var reports = new List<SessionReport>();
        foreach (var entry in await ledger.ListAsync(new LedgerQuery { State = DeliveryState.Delivered, Take = 1000 }, cancellation))
        {
            var report = await recorded.FindAsync(entry.Key.Site, entry.Key.SessionId, cancellation);
            reports.Add(report.Value ?? throw new CommandFailedException(
                $"The report of {entry.Key} cannot be read back: {string.Join(" ", report.Problems)}"));
        }

        var table = new ReportTable(terminal.Output);
        foreach (var visits in reports.GroupBy(r => r.Patient))
        {
            table.Write(visits.MaxBy(r => r.StartedAt)!);
        }

        await terminal.Output.WriteLineAsync();
        await terminal.Output.WriteLineAsync("* norm from memory: demonstration only.");
    }

    private async Task LoadPatientsAsync(CancellationToken cancellation)
    {
        using var client = host.Services.GetRequiredService<IHttpClientFactory>().CreateClient();
        using var body = new ByteArrayContent(await File.ReadAllBytesAsync(DemoExamples.Patients, cancellation));
        body.Headers.ContentType = new MediaTypeHeaderValue("application/fhir+json");
        using var answer = await client.PostAsync(host.Target, body, cancellation);
        if (!answer.IsSuccessStatusCode)
        {
            throw new CommandFailedException($"The record did not take the example patients: it answered {(int)answer.StatusCode}.");
        }
    }

    private async Task<IReadOnlyDictionary<string, int>> CountAsync(CancellationToken cancellation)
    {
        var record = host.Services.GetRequiredService<RecordReader>();
        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        foreach (var type in CountedTypes)
        {
            counts[type] = await record.CountAsync(type, cancellation);
        }

        return counts;
    }
}
