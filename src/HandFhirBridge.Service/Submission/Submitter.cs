using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Service.Cli;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Intake;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;

namespace HandFhirBridge.Service.Submission;

/// <summary>Takes sessions from files into the ledger, in batches: one commit for many sessions, and none half.</summary>
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
        await foreach (var item in new SessionSources(parts.Reader).ReadAsync(paths, terminal.InputStream, cancellation))
        {
            var prepared = item.Outcome.Succeeded ? pipeline.Prepare(item.Outcome) : new(null, item.Outcome.Problems);
            await run.AddAsync(item, prepared, BatchSize, cancellation);
            progress.Show($"{++seen} read, {rejects.Count} refused");
        }

        await run.CommitAsync(cancellation);
        await rejects.DisposeAsync();
        return new(run.Accepted, run.Already, rejects.Count, run.Keys, rejects.Files);
    }

    private sealed class Run(ILedger ledger, RejectsWriter rejects, TextWriter output)
    {
        private readonly List<(IntakeItem Item, AcceptedSession Session)> batch = [];

        public int Accepted { get; private set; }

        public int Already { get; private set; }

        public List<SessionKey> Keys { get; } = [];

        public async Task AddAsync(IntakeItem item, Outcome<PreparedSession> prepared, int size, CancellationToken cancellation)
        {
            if (prepared.Value is { } session)
            {
                batch.Add((item, session.ToAccept()));
            }
            else
            {
                await RejectAsync(item, prepared.Problems, cancellation);
            }

            if (batch.Count >= size)
            {
                await CommitAsync(cancellation);
            }
        }

        public async Task CommitAsync(CancellationToken cancellation)
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
