using System.Collections.Concurrent;
using System.Net;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.Extensions.Logging;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Record.Export;

/// <summary>The exports of this process: begins them, keeps their files for their time, removes them. None outlives the process.</summary>
/// <param name="database">What is exported.</param>
/// <param name="options">Limits.</param>
/// <param name="clock">Gives the time.</param>
/// <param name="logger">Where failures go.</param>
internal sealed class ExportJobs(RecordDatabase database, RecordOptions options, TimeProvider clock, ILogger<ExportJobs> logger) : IAsyncDisposable
{
    private readonly ConcurrentDictionary<string, (ExportJob Job, ITimer? Expiry)> jobs = new();
    private readonly SemaphoreSlim one = new(1, 1);
    private readonly ExportFolder folder = new(database.ExportFolder);

    /// <summary>How long a client that is refused by <see cref="StartAsync"/> should wait.</summary>
    public TimeSpan Wait => Running >= options.MaxRunningExports || jobs.IsEmpty
        ? TimeSpan.FromSeconds(5)
        : TimeSpan.FromSeconds(Math.Max(1, (jobs.Values.Min(j => j.Job.End?.Expires ?? DateTimeOffset.MaxValue) - clock.GetUtcNow()).TotalSeconds));

    private int Running => jobs.Values.Count(j => j.Job.End is null);

    /// <summary>Begins an export; what it gives is settled when this returns.</summary>
    /// <exception cref="RecordRefusal">429 at the limit; what the group or a patient lacks.</exception>
    public async Task<ExportJob> StartAsync(ExportOrder order, CancellationToken cancellation)
    {
        await one.WaitAsync(cancellation);
        try
        {
            DemandRoom();
            var (session, moment) = await database.SnapshotAsync(cancellation);
            try
            {
                var population = new ExportPopulation(session, order);
                population.Prepare();
                var id = ExportFolder.NewName();
                var job = new ExportJob(id, order, folder.Make(id), moment, population.Count());
                jobs[id] = (job, null);
                job.Work = Task.Run(() => RunAsync(job, session, population), CancellationToken.None);
                return job;
            }
            catch
            {
                session.Dispose();
                throw;
            }
        }
        finally
        {
            one.Release();
        }
    }

    /// <exception cref="RecordRefusal">404 if there is none, or none any more.</exception>
    public ExportJob Find(string id) => jobs.TryGetValue(id, out var found) ? found.Job : throw Unknown(id);

    /// <summary>Cancels an export or forgets one that is done; its files are gone when this returns.</summary>
    /// <exception cref="RecordRefusal">404 if there is none, or none any more.</exception>
    public async Task RemoveAsync(string id)
    {
        if (!jobs.TryRemove(id, out var removed))
        {
            throw Unknown(id);
        }

        removed.Expiry?.Dispose();
        removed.Job.Cancel();
        await removed.Job.Work;
        ExportFolder.Remove(removed.Job.Folder);
        removed.Job.Dispose();
    }

    public async ValueTask DisposeAsync()
    {
        foreach (var id in jobs.Keys)
        {
            await RemoveAsync(id);
        }

        folder.Dispose();
        one.Dispose();
    }

    private static RecordRefusal Unknown(string id) => RecordRefusal.NotFound($"There is no export {id}: it was removed, its time is over, or the server was started anew. Begin another.");

    private void DemandRoom()
    {
        if (Running >= options.MaxRunningExports || jobs.Count >= options.MaxKeptExports)
        {
            throw new RecordRefusal(
                HttpStatusCode.TooManyRequests,
                OperationOutcome.IssueType.Throttled,
                $"{Running} exports are under way and {jobs.Count - Running} kept; the limits are {options.MaxRunningExports} and {options.MaxKeptExports} in all. Wait as long as Retry-After says, and delete exports that are read.");
        }
    }

    private async Task RunAsync(ExportJob job, RecordSession session, ExportPopulation population)
    {
        try
        {
            using (session)
            {
                var files = await new ExportWriter(job.Folder, population, job.Count).WriteAsync(job.Cancelled);
                job.Done(files, Expire(job));
            }
        }
        catch (OperationCanceledException) when (job.Cancelled.IsCancellationRequested)
        {
            // Whoever cancelled it removes it.
        }
        catch (Exception failure)
        {
            // The edge: nobody awaits the work, so its end is told by the status. Messages may quote resources; the log gets the kind and the place.
            logger.LogError("An export failed with {Kind} at {Place}", failure.GetType().Name, failure.StackTrace);
            ExportFolder.Remove(job.Folder);
            job.Fail(Expire(job));
        }
    }

    /// <summary>Sets the time of an export that is about to be done: before its end is told, so that what is told holds.</summary>
    private DateTimeOffset Expire(ExportJob job)
    {
        var expires = clock.GetUtcNow() + options.ExportLifetime;
        var timer = clock.CreateTimer(_ => _ = ExpireAsync(job.Id), null, options.ExportLifetime, Timeout.InfiniteTimeSpan);
        if (!jobs.TryUpdate(job.Id, (job, timer), (job, null)))
        {
            timer.Dispose(); // Removed meanwhile.
        }

        return expires;
    }

    private async Task ExpireAsync(string id)
    {
        try
        {
            await RemoveAsync(id);
        }
        catch (RecordRefusal)
        {
            // Removed by the client meanwhile.
        }
        catch (IOException failure)
        {
            logger.LogError("The files of an export that expired cannot be deleted: {Kind}", failure.GetType().Name);
        }
    }
}
