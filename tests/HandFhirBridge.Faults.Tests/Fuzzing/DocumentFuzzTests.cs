using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using HandFhirBridge.Faults.Tests.Support;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Faults.Tests.Fuzzing;

/// <summary>
/// Whatever comes in is either taken whole or refused with a code. All documents are read; what passes is scored and mapped;
/// of that, FAULTS_VALIDATED (default 40, at some 150 ms each) are validated and committed. FAULTS_DOCUMENTS sets how many (default 10,000).
/// </summary>
public sealed class DocumentFuzzTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-fuzz-").FullName;

    [Fact]
    public async Task Prepare_MutatedDocument_IsTakenWholeOrRefusedWithACode()
    {
        var (documents, validated) = (Plan.Number("FAULTS_DOCUMENTS") ?? 10_000, Plan.Number("FAULTS_VALIDATED") ?? 40);
        Plan.Say($"FAULTS_SEED={Plan.Seed}");
        var random = new Random(Plan.Seed);
        var mutation = new Mutation(random);
        var settings = new BridgeSettings { Demonstration = true, DataDirectory = folder };
        var parts = new BridgeParts(settings, TimeProvider.System);
        var pipeline = new Lazy<SessionPipeline>(parts.Pipeline);
        var (scorer, mapper) = (new Scorer(parts.Instruments, parts.Norms, new ScoringOptions(true)), new SessionMapper(new MappingOptions { SoftwareVersion = "0.1.0" }));
        using var ledger = new SqliteLedger(settings.LedgerPath, TimeProvider.System);
        var (read, committed, faults) = (0, 0, new List<string>());
        for (var number = 0; number < documents; number++)
        {
            var sources = random.Next(8) == 0 ? Examples.Bad : Examples.Good;
            var source = sources[random.Next(sources.Count)];
            var document = source;
            try
            {
                document = Mutate(mutation, source);
                var session = parts.Reader.Read(document);
                if (!session.Succeeded)
                {
                    Note(Refusal.Fault(session.Problems));
                    continue;
                }

                read++;
                mapper.Map(scorer.Score(session.Value!), SessionWriter.Write(session.Value!), new(2026, 3, 2, 10, 0, 0, TimeSpan.Zero));
                if (validated-- > 0)
                {
                    committed += await CommitAsync(pipeline.Value, ledger, session, Note);
                }
            }
#pragma warning disable CA1031 // That nothing at all escapes is what is tested.
            catch (Exception crash)
#pragma warning restore CA1031
            {
                Note(crash.ToString());
            }

            void Note(string? fault)
            {
                if (fault is not null)
                {
                    faults.Add($"document {number}: {fault}");
                }
            }
        }

        Plan.Say($"{documents} documents: {documents - read} refused by the reader, {read} read, scored and mapped, {committed} committed; {faults.Count} faults");
        faults.Take(20).ShouldBeEmpty();
        read.ShouldBeGreaterThan(0);
        committed.ShouldBeGreaterThan(0);
        (await ledger.CountAsync(TestContext.Current.CancellationToken)).ByState.Values.Sum().ShouldBe(committed);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static byte[] Mutate(Mutation mutation, byte[] source)
    {
        try
        {
            return mutation.Apply(source);
        }
        catch (Exception unreadable) when (unreadable is System.Text.Json.JsonException or ArgumentException or InvalidOperationException && Examples.Bad.Contains(source))
        {
            // A bad example that no tree can hold goes in as it is.
            return source;
        }
    }

    /// <summary>The whole corridor; 1 if the ledger holds one more session afterwards.</summary>
    private static async Task<int> CommitAsync(SessionPipeline pipeline, SqliteLedger ledger, Outcome<Session> session, Action<string?> note)
    {
        var prepared = pipeline.Prepare(session);
        if (!prepared.Succeeded)
        {
            note(Refusal.Fault(prepared.Problems));
            return 0;
        }

        var result = (await ledger.AcceptAsync([prepared.Value!.ToAccept()], TestContext.Current.CancellationToken))[0];
        note(result.Problem is { } problem ? Refusal.Fault([problem]) : null);
        return result.Outcome == AcceptOutcome.Accepted ? 1 : 0;
    }
}
