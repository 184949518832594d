using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Benchmarks;

/// <summary>The embedded record beside bare SQLite: a session written in one transaction, and a search over many Observations.</summary>
internal static class RecordRatios
{
    private const int SearchesARun = 200;

    internal static async Task<Ratio[]> MeasureAsync(int runs, int sessions, int warmingRounds, int observations) =>
        [await TransactionAsync(runs, sessions, warmingRounds), await TrialsAsync(runs, sessions, warmingRounds), await SearchAsync(runs, observations)];

    private static async Task<Ratio> TransactionAsync(int runs, int sessions, int warmingRounds)
    {
        await using var record = await RecordHost.StartAsync();
        using var bare = new BareSqlite();
        for (var warming = 0; warming < warmingRounds; warming++)
        {
            await PostAsync(record, sessions);
        }

        var (ours, other) = await Alternating.MeasureAsync(runs, () => PostAsync(record, sessions), () => Task.FromResult(Insert(bare, sessions)));
        return new("recordTransaction", ours, other, "ms a session, one after the other", "the same resources inserted into a table of bare SQLite, one transaction a session, synchronous=FULL");
    }

    private static async Task<Ratio> TrialsAsync(int runs, int sittings, int warmingRounds)
    {
        await using var record = await RecordHost.StartAsync();
        using var bare = new BareSqlite();
        var corpus = new RecordCorpus();
        for (var warming = 0; warming < warmingRounds; warming++)
        {
            await PostAsync(record, corpus.Sittings(sittings));
        }

        var (ours, other) = await Alternating.MeasureAsync(
            runs, () => PostAsync(record, corpus.Sittings(sittings)), () => Task.FromResult(Insert(bare, corpus.Sittings(sittings).Select(Rows))));
        return new(
            "recordTrials", ours, other, string.Create(CultureInfo.InvariantCulture, $"ms a transaction of {corpus.Codes.Count} trials, one after the other"),
            "the same resources inserted into a table of bare SQLite, one transaction for the same trials, synchronous=FULL");
    }

    private static Task<double> PostAsync(RecordHost record, int sessions) => PostAsync(record, [.. MappedCorpus.Take(sessions).Select(session => session.Bundle.ToArray())]);

    private static async Task<double> PostAsync(RecordHost record, byte[][] bundles)
    {
        var start = Stopwatch.GetTimestamp();
        foreach (var bundle in bundles)
        {
            await record.PostAsync(bundle);
        }

        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / bundles.Length;
    }

    private static double Insert(BareSqlite bare, int sessions) => Insert(bare, MappedCorpus.Take(sessions).Select(Resources));

    private static double Insert(BareSqlite bare, IEnumerable<List<BareRow>> bundles)
    {
        List<List<BareRow>> all = [.. bundles];
        var start = Stopwatch.GetTimestamp();
        all.ForEach(bare.Insert);
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / all.Count;
    }

    private static List<BareRow> Resources(AcceptedSession session)
    {
        using var bundle = JsonDocument.Parse(session.Bundle);
        return [.. bundle.RootElement.GetProperty("entry").EnumerateArray().Select(e => new BareRow(e.GetProperty("request").GetProperty("url").GetString()!, null, null, null, e.GetProperty("resource").GetRawText()))];
    }

    private static async Task<Ratio> SearchAsync(int runs, int observations)
    {
        await using var record = await RecordHost.StartAsync();
        using var bare = new BareSqlite();
        var corpus = new RecordCorpus();
        var start = Stopwatch.GetTimestamp();
        // While one is written, the next are read and checked.
        await Parallel.ForEachAsync(corpus.Bundles(observations), new ParallelOptions { MaxDegreeOfParallelism = 3 }, async (bundle, _) => await record.PostAsync(bundle));
        await Console.Error.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"loaded {observations} Observations in {Stopwatch.GetElapsedTime(start).TotalSeconds:F0} s"));
        foreach (var bundle in corpus.Bundles(observations))
        {
            bare.Insert(Rows(bundle));
        }

        var random = new Random(1);
        await SearchAsync(record, corpus, random);
        Query(bare, corpus, random);
        var (ours, other) = await Alternating.MeasureAsync(runs, () => SearchAsync(record, corpus, random), () => Task.FromResult(Query(bare, corpus, random)));
        return new(
            "recordSearch", ours, other, string.Create(CultureInfo.InvariantCulture, $"ms, 99th percentile of {SearchesARun} searches by code, month and clinic over {observations} Observations"),
            "the same questions to a table of bare SQLite with one index on clinic, code and time, in process");
    }

    private static List<BareRow> Rows(byte[] bundle)
    {
        using var json = JsonDocument.Parse(bundle);
        return [.. json.RootElement.GetProperty("entry").EnumerateArray().Select(e => e.GetProperty("resource")).Select(r => new BareRow(
            "Observation/" + r.GetProperty("id").GetString(),
            r.GetProperty("performer")[1].GetProperty("identifier").GetProperty("value").GetString(),
            r.GetProperty("code").GetProperty("coding")[0].GetProperty("code").GetString(),
            r.GetProperty("effectiveDateTime").GetString(),
            r.GetRawText()))];
    }

    private static async Task<double> SearchAsync(RecordHost record, RecordCorpus corpus, Random random)
    {
        var (times, found) = (new List<double>(), 0);
        for (var i = 0; i < SearchesARun; i++)
        {
            var (code, clinic, from, to) = corpus.Question(random);
            var query = $"Observation?code={Uri.EscapeDataString(corpus.CodeSystem + "|" + code)}&date=ge{from:yyyy-MM-dd}&date=le{to:yyyy-MM-dd}&performer:identifier={Uri.EscapeDataString(RecordCorpus.ClinicSystem + "|" + clinic)}";
            var start = Stopwatch.GetTimestamp();
            var answer = await record.AskAsync(query);
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            found += (int)JsonNode.Parse(answer)!["total"]!;
        }

        // Empty answers would be quick, and measure nothing.
        return found > 0 ? Percentile(times) : throw new InvalidOperationException("The searches found nothing.");
    }

    private static double Query(BareSqlite bare, RecordCorpus corpus, Random random)
    {
        var times = new List<double>();
        for (var i = 0; i < SearchesARun; i++)
        {
            var (code, clinic, from, to) = corpus.Question(random);
            var start = Stopwatch.GetTimestamp();
            bare.Find(clinic, code, from, to);
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return Percentile(times);
    }

    private static double Percentile(List<double> times)
    {
        times.Sort();
        return times[(int)Math.Ceiling(times.Count * 0.99) - 1];
    }
}
