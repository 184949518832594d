using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Cli;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Intake;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;

namespace HandFhirBridge.Service.Submission;

/// <summary>
/// Takes sessions from files into the ledger, in batches: one commit for many sessions, and none half. A batch is prepared on all
/// processors and kept in its order; no more than one is in memory.
/// </summary>
/// <param name="parts">Makes the corridor.</param>
/// <param name="ledger">Where accepted sessions are committed.</param>
public sealed class Submitter(BridgeParts parts, ILedger ledger)
{
    private const int BatchSize = 100;

    /// <summary>Reads, scores, maps, validates and commits; what is refused is printed and written to the rejects folder.</summary>
    public async Task<SubmissionCounts> SubmitAsync(
        IReadOnlyCollection<string> paths, CommandTerminal terminal, string rejectsFolder, Progress progress, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(terminal);
        ArgumentNullException.ThrowIfNull(progress);
        var pipeline = parts.Pipeline(SessionValidator.Shared);
        await using var rejects = new RejectsWriter(rejectsFolder);
        var run = new Run(ledger, rejects, terminal.Output);
        var seen = 0;
        await foreach (var items in new SessionSources(parts.Reader).ReadAsync(paths, terminal.InputStream, cancellation).Chunk(BatchSize).WithCancellation(cancellation))
        {
            await run.TakeAsync(items, item => Prepare(pipeline, item), cancellation);
            seen += items.Length;
            progress.Show($"{seen} read, {run.Accepted} accepted, {rejects.Count} refused");
        }

        await rejects.DisposeAsync();
        return new(run.Accepted, run.Already, rejects.Count, run.Keys, rejects.Files);
    }

    private static Outcome<AcceptedSession> Prepare(SessionPipeline pipeline, IntakeItem item)
    {
        if (!item.Outcome.Succeeded)
        {
            return new(null, item.Outcome.Problems);
        }

        var prepared = pipeline.Prepare(item.Outcome);
        return new(prepared.Value?.ToAccept(), prepared.Problems);
    }

    private sealed class Run(ILedger ledger, RejectsWriter rejects, TextWriter output)
    {
        private readonly List<(IntakeItem Item, AcceptedSession Session)> batch = [];

        public int Accepted { get; private set; }

        public int Already { get; private set; }

        public List<SessionKey> Keys { get; } = [];

        public async Task TakeAsync(IntakeItem[] items, Func<IntakeItem, Outcome<AcceptedSession>> prepare, CancellationToken cancellation)
        {
            var left = new List<IntakeItem>(items.Length);
            foreach (var item in items)
            {
                if (!await StandsAsync(item, cancellation))
                {
                    left.Add(item);
                }
            }

            foreach (var (item, prepared) in left.AsParallel().AsOrdered().WithCancellation(cancellation).Select(item => (item, prepare(item))).ToList())
            {
                if (prepared.Value is { } session)
                {
                    batch.Add((item, session));
                }
                else
                {
                    await RejectAsync(item, prepared.Problems, cancellation);
                }
            }

            await CommitAsync(cancellation);
        }

        /// <summary>
        /// True if the ledger holds the same content: a load that was cut off is handed in again as a whole, and what was committed
        /// need not be scored and validated a second time.
        /// </summary>
        private async Task<bool> StandsAsync(IntakeItem item, CancellationToken cancellation)
        {
            if (item.Outcome.Value is not { } session || !item.Outcome.Succeeded)
            {
                return false;
            }

            var key = new SessionKey(session.Site, session.SessionId, session.Revision);
            if ((await ledger.FindAsync(key, cancellation))?.ContentHash != ContentHash.Of(SessionWriter.Write(session)))
            {
                return false;
            }

            Already++;
            Keys.Add(key);
            return true;
        }

        private async Task CommitAsync(CancellationToken cancellation)
        {
            if (batch.Count == 0)
            {
                return;
            }

            var results = await ledger.AcceptAsync(batch.ConvertAll(b => b.Session), cancellation);
            foreach (var (result, item) in results.Zip(batch.Select(b => b.Item)))
            {
                Accepted += result.Outcome == AcceptOutcome.Accepted ? 1 : 0;
                Already += result.Outcome == AcceptOutcome.AlreadyAccepted ? 1 : 0;
                if (result.Problem is { } problem)
                {
                    await RejectAsync(item, [problem], cancellation);
                }
                else
                {
                    Keys.Add(result.Key);
                }
            }

            batch.Clear();
        }

        private async Task RejectAsync(IntakeItem item, IEnumerable<Problem> problems, CancellationToken cancellation)
        {
            var placed = problems.Select(p => p.Place is null ? p with { Place = item.Place } : p).ToList();
            placed.ForEach(p => ProblemText.Write(output, p));
            await rejects.AddAsync(item with { Outcome = new(null, [.. placed]) }, cancellation);
        }
    }
}
