using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
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
/// processors while the one before is committed, and kept in its order; no more than these two are in memory.
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
        var pipeline = parts.Pipeline();
        await using var rejects = new RejectsWriter(rejectsFolder);
        var run = new Run(ledger, rejects, terminal.Output);
        var (seen, committing) = (0, Task.CompletedTask);
        try
        {
            await foreach (var items in new SessionSources(parts.Reader).ReadAsync(paths, terminal.InputStream, cancellation).Chunk(BatchSize).WithCancellation(cancellation))
            {
                // As many at a time as there are processors: the first of an unknown shape is validated in full, and each that waits for it would be as well.
                var batch = new Prepared[items.Length];
                await Parallel.ForAsync(0, items.Length, cancellation, async (at, stop) => batch[at] = await PrepareAsync(pipeline, items[at], stop));
                await committing;
                progress.Show($"{seen} read, {run.Accepted} accepted, {rejects.Count} refused");
                committing = run.CommitAsync(batch, cancellation);
                seen += items.Length;
            }
        }
        finally
        {
            // Whatever stopped the reading, what is being committed is committed whole before anything is closed.
            await committing;
        }

        await rejects.DisposeAsync();
        return new(run.Accepted, run.Already, rejects.Count, run.Keys, rejects.Files);
    }

    private async Task<Prepared> PrepareAsync(SessionPipeline pipeline, IntakeItem item, CancellationToken cancellation)
    {
        if (item.Outcome is not { Succeeded: true, Value: { } session })
        {
            return new(item, null, false, item.Outcome.Problems);
        }

        if (await StandsAsync(session, cancellation))
        {
            return new(item, null, true, []);
        }

        var prepared = pipeline.Prepare(item.Outcome);
        return new(item, prepared.Value?.ToAccept(), false, prepared.Problems);
    }

    /// <summary>
    /// True if the ledger holds the same content: a load that was cut off is handed in again as a whole, and what was committed
    /// need not be scored and validated a second time.
    /// </summary>
    private async Task<bool> StandsAsync(Session session, CancellationToken cancellation) =>
        (await ledger.FindAsync(KeyOf(session), cancellation))?.ContentHash == ContentHash.Of(SessionWriter.Write(session));

    private static SessionKey KeyOf(Session session) => new(session.Site, session.SessionId, session.Revision);

    /// <summary>What was handed in, on its way into the ledger.</summary>
    /// <param name="Item">As it was read.</param>
    /// <param name="Session">Ready to be committed; null if it is refused or stands.</param>
    /// <param name="Stands">True if the ledger holds it.</param>
    /// <param name="Problems">Why it is refused, or what was noticed.</param>
    private sealed record Prepared(IntakeItem Item, AcceptedSession? Session, bool Stands, ImmutableArray<Problem> Problems);

    private sealed class Run(ILedger ledger, RejectsWriter rejects, TextWriter output)
    {
        public int Accepted { get; private set; }

        public int Already { get; private set; }

        public List<SessionKey> Keys { get; } = [];

        public async Task CommitAsync(Prepared[] batch, CancellationToken cancellation)
        {
            foreach (var standing in batch.Where(prepared => prepared.Stands))
            {
                Already++;
                Keys.Add(KeyOf(standing.Item.Outcome.Value!));
            }

            foreach (var refused in batch.Where(prepared => prepared is { Stands: false, Session: null }))
            {
                await RejectAsync(refused.Item, refused.Problems, cancellation);
            }

            var ready = Array.FindAll(batch, prepared => prepared.Session is not null);
            if (ready.Length == 0)
            {
                return;
            }

            var results = await ledger.AcceptAsync(Array.ConvertAll(ready, prepared => prepared.Session!), cancellation);
            foreach (var (result, prepared) in results.Zip(ready))
            {
                Accepted += result.Outcome == AcceptOutcome.Accepted ? 1 : 0;
                Already += result.Outcome == AcceptOutcome.AlreadyAccepted ? 1 : 0;
                if (result.Problem is { } problem)
                {
                    await RejectAsync(prepared.Item, [problem], cancellation);
                }
                else
                {
                    Keys.Add(result.Key);
                }
            }
        }

        private async Task RejectAsync(IntakeItem item, IEnumerable<Problem> problems, CancellationToken cancellation)
        {
            var placed = problems.Select(p => p.Place is null ? p with { Place = item.Place } : p).ToList();
            placed.ForEach(p => ProblemText.Write(output, p));
            await rejects.AddAsync(item with { Outcome = new(null, [.. placed]) }, cancellation);
        }
    }
}
