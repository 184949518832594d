using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Fhir.Validation.Remembered;
using HandFhirBridge.Fhir.Validation.Rules;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Reports;
using HandFhirBridge.Service.Settings;
using Hl7.Fhir.Model;
using Hl7.Fhir.Validation;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Benchmarks;

/// <summary>Where the time goes, stage by stage: of a session on its way to the ledger, and of a warm verdict.</summary>
internal static class StagesCommand
{
    private const int WarmingRounds = 10;
    private const int Rounds = 5;

    internal static async Task<int> RunAsync()
    {
        var parts = new BridgeParts(new BridgeSettings { Demonstration = true }, TimeProvider.System);
        var pipeline = parts.Pipeline();
        Corridor(parts, pipeline);
        await CommitAsync(pipeline);
        Console.WriteLine();
        Verdict();
        return 0;
    }

    private static void Corridor(BridgeParts parts, SessionPipeline pipeline)
    {
        var scorer = new Scorer(parts.Instruments, parts.Norms, new ScoringOptions(Demonstration: true));
        var resources = new SessionResources(parts.Instruments, TimeProvider.System);
        byte[][] documents = [.. Corpus.Paths.Select(File.ReadAllBytes)];
        Time("from the document to the ledger's row", documents, document => pipeline.Prepare(document).Value!.ToAccept().Bundle.Length);
        Time("read", documents, document => parts.Reader.Read(document).Problems.Length);
        var sessions = Array.ConvertAll(documents, document => parts.Reader.Read(document).Value!);
        Time("write as it is kept", sessions, session => SessionWriter.Write(session).Length);
        Time("score", sessions, session => scorer.Score(session).Trials.Length);
        var scored = Array.ConvertAll(sessions, scorer.Score);
        Time("map", scored, session => Corpus.Map(session, []).Entry.Count);
        var bundles = Array.ConvertAll(scored, session => (Session: session, Bundle: Corpus.Map(session, SessionWriter.Write(session.Session))));
        Time("read back", bundles, one => resources.Read(one.Bundle.Entry.Select(entry => entry.Resource).OfType<Resource>()).Problems.Length);
        Time("read back and print", bundles, one => parts.Forms.Attach(one.Bundle, EarlierFinding.NotLookedFor).Length);
        Time("verdict", bundles, one => SessionValidator.Shared.Validate(one.Bundle).Length);
        Time("serialize and digest", bundles, one => AcceptedSession.Of(one.Session.Session, ReadOnlyMemory<byte>.Empty, one.Bundle).Bundle.Length);
    }

    /// <summary>The ledger alone, as a backload writes it: a hundred sessions a commit, each new.</summary>
    private static async Task CommitAsync(SessionPipeline pipeline)
    {
        const int batch = 100;
        var folder = Directory.CreateTempSubdirectory("hfb-measured-");
        try
        {
            using var ledger = new SqliteLedger(Path.Combine(folder.FullName, "ledger.db"), TimeProvider.System);
            var took = new List<double>();
            for (var round = 0; round <= Rounds; round++)
            {
                AcceptedSession[] sessions = [.. MappedCorpus.Take(batch).Select(session => pipeline.Prepare(session.Document).Value!.ToAccept())];
                var start = Stopwatch.GetTimestamp();
                await ledger.AcceptAsync(sessions, CancellationToken.None);
                took.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds / batch);
            }

            var measured = Measurement.Of(took.Skip(1));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{"commit, a hundred at a time, unsealed",-45} {measured.Median,9:F2} ms ({measured.Least:F2} to {measured.Most:F2})"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static void Verdict()
    {
        var bundles = Corpus.Paths.Take(2).Select(Corpus.Bundle).ToArray();
        var validator = SessionValidator.Shared;
        Time("whole verdict", bundles, bundle => validator.Validate(bundle).Length);
        Time("the same with nothing from memory", bundles, bundle => validator.ValidateFully(bundle).Length);
        Time("shapes", bundles, bundle => SessionShapes.Of(bundle).Entries.Length);
        Time("plain values, narrative not looked at", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector, NarrativeValidationKind.None).Count);
        Time("plain values, narrative against the schema", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector).Count);
        Time("plain values, narrative as XML", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector, NarrativeValidationKind.Xml).Count);
        IResourceRule[] rules = [new EntryRule(), new BundleReferenceRule(), new UnitRule()];
        foreach (var rule in rules)
        {
            Time(rule.GetType().Name, bundles, bundle => rule.Check(bundle, new Finding(bundle)).Count());
        }
    }

    private static void Time<T>(string name, T[] items, Func<T, int> stage)
    {
        for (var round = 0; round < WarmingRounds; round++)
        {
            Array.ForEach(items, item => stage(item));
        }

        var allocated = GC.GetAllocatedBytesForCurrentThread();
        var cpu = Process.GetCurrentProcess().TotalProcessorTime;
        var start = Stopwatch.GetTimestamp();
        for (var round = 0; round < Rounds; round++)
        {
            Array.ForEach(items, item => stage(item));
        }

        var count = items.Length * Rounds;
        var took = Stopwatch.GetElapsedTime(start) / count;
        var spent = (Process.GetCurrentProcess().TotalProcessorTime - cpu) / count;
        var bytes = (GC.GetAllocatedBytesForCurrentThread() - allocated) / count;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{name,-45} {took.TotalMilliseconds,9:F2} ms {spent.TotalMilliseconds,9:F2} ms processor {bytes / 1024,9} KiB"));
    }
}
