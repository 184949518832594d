using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Outcomes.Gather.Reading;
using HandFhirBridge.Outcomes.Gather.State;

namespace HandFhirBridge.Outcomes.Gather;

/// <summary>Gathers one source: results by export or search, then the patients they are about; merges what came; keeps the state.</summary>
/// <param name="folder">The source's folder.</param>
/// <param name="requests">The source.</param>
/// <param name="progress">Is told how far it is.</param>
internal sealed class SourceGatherer(SourceFolder folder, FhirRequests requests, IProgress<GatherProgress> progress)
{
    private const string Export = "export";
    private const string Search = "search";

    private readonly List<string> notes = [];
    private readonly HashSet<string> removed = new(StringComparer.Ordinal);

    public string? Method { get; private set; }

    public ImmutableArray<string> Notes => [.. notes.Distinct()];

    public async Task<(long Read, ImmutableSortedDictionary<string, long> Held)> GatherAsync(CancellationToken cancellation)
    {
        var state = requests.Options.Full ? folder.New() : folder.Load();
        if (state.Pending is null)
        {
            Begin(state, requests.Options.SearchOnly ? Search : Export);
        }

        Method = state.Pending!.Method;
        var lines = new IncomingLines(folder, state);
        var export = await ReadResultsAsync(state, lines, cancellation);
        var old = state.CompleteUntil is not null;
        var held = ImmutableSortedDictionary.CreateBuilder<string, long>(StringComparer.Ordinal);
        foreach (var type in new[] { "Observation", "DiagnosticReport" })
        {
            held[type] = Merge(type, old, OwnResources.Are);
        }

        var patients = Referenced();
        await new PatientReader(requests, lines, notes, progress).ReadAsync(export is null ? patients : Missing(patients, old), cancellation);
        held["Patient"] = Merge("Patient", old, r => OwnResources.Text(r, "id") is { } id && patients.Contains(id));
        held["Condition"] = Merge("Condition", old, r => OwnResources.PatientOf(r) is { } id && patients.Contains(id));
        var read = state.Pending.Read;
        await (export?.RemoveAsync(cancellation) ?? Task.CompletedTask);
        state.CompleteUntil = state.Pending.Until ?? state.CompleteUntil;
        state.Pending = null;
        folder.Save(state);
        folder.ClearIncoming();
        return (read, held.ToImmutable());
    }

    private void Begin(SourceState state, string method)
    {
        folder.ClearIncoming();
        state.Pending = new() { Method = method, Since = state.CompleteUntil - requests.Options.Overlap };
        folder.Save(state);
    }

    /// <returns>The export that was read; null if pages were.</returns>
    private async Task<ExportReader?> ReadResultsAsync(SourceState state, IncomingLines lines, CancellationToken cancellation)
    {
        if (state.Pending!.Method == Export)
        {
            if (await ExportOffer.FindAsync(requests, cancellation) is { } address)
            {
                try
                {
                    var export = new ExportReader(requests, state, lines, removed, progress);
                    await export.ReadAsync(address, cancellation);
                    return export;
                }
                catch (GatherException failed) when (failed.Problem.Kind == GatherProblems.ExportFailed)
                {
                    notes.Add($"the export failed and pages were read instead: {failed.Problem.Message}");
                }
            }

            Begin(state, Search);
        }

        Method = Search;
        await new SearchReader(requests, state, lines, notes, progress).ReadAsync(cancellation);
        return null;
    }

    private long Merge(string type, bool keepOld, Func<JsonElement, bool> wanted) => MergedFile.Merge(
        folder.Merged(type), folder.Incoming(type), keepOld,
        removed.Where(r => r.StartsWith(type + "/", StringComparison.Ordinal)).Select(r => r[(type.Length + 1)..]).ToHashSet(StringComparer.Ordinal), wanted);

    private HashSet<string> Referenced()
    {
        var ids = new HashSet<string>(StringComparer.Ordinal);
        foreach (var line in MergedFile.Lines(folder.Merged("Observation")))
        {
            using var resource = JsonDocument.Parse(line);
            if (OwnResources.PatientOf(resource.RootElement) is { } id)
            {
                ids.Add(id);
            }
        }

        return ids;
    }

    /// <summary>Patients that an export of changes did not bring: nothing of theirs had changed when their first result came.</summary>
    private HashSet<string> Missing(IEnumerable<string> patients, bool old)
    {
        var missing = patients.ToHashSet(StringComparer.Ordinal);
        foreach (var line in (old ? MergedFile.Lines(folder.Merged("Patient")) : []).Concat(MergedFile.Lines(folder.Incoming("Patient"))))
        {
            using var resource = JsonDocument.Parse(line);
            missing.Remove(OwnResources.Text(resource.RootElement, "id") ?? "");
        }

        return missing;
    }
}
