using System.Collections.Immutable;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Writes the resources of one session in their order, and stops at the first that cannot be written.</summary>
internal sealed class SingleWriteRun(FhirTarget target, SessionBundle bundle, RecordedSession recorded, Rung rung, CancellationToken cancellation)
{
    private readonly ImmutableDictionary<int, string>.Builder ids = recorded.Found.ToImmutableDictionary(f => f.Key, f => f.Value.Id).ToBuilder();

    // Under ids of ours a repeated write makes no second resource; a target that gives its own ids is searched before each create.
    private bool ownIds = target.Memory.Capabilities!.DeclaresUpdateCreate(bundle.Types);

    public async Task<WriteResult> RunAsync()
    {
        foreach (var wave in WriteWaves.Of(bundle))
        {
            var together = await TogetherAsync(wave);
            foreach (var entry in wave.Where(entry => !together.Contains(entry.Index)))
            {
                if (await WriteAsync(entry) is { } stop)
                {
                    return stop with { Ids = ids.ToImmutable() };
                }
            }
        }

        return new(rung, WriteVerdict.Stored, TargetAnswer.None(AnswerKind.Answered, "all written"), $"{bundle.Entries.Length} resources written one by one")
        {
            Ids = ids.ToImmutable(),
        };
    }

    /// <summary>
    /// Puts what is new under ids of ours by one batch, where the target takes them. What a batch did not store is written by itself
    /// afterwards: repeating it under its id makes no second one, and the answer then says what stands in the way.
    /// </summary>
    /// <returns>0-based entries that were stored.</returns>
    private async Task<HashSet<int>> TogetherAsync(IReadOnlyList<SessionEntry> wave)
    {
        // Sessions of different patients share devices, so each is written in turn.
        var entries = wave.Where(entry => entry.Type != "Device" && !recorded.Found.ContainsKey(entry.Index)).ToList();
        if (!ownIds || entries.Count < 2
            || await BatchRequest.AskAsync(
                target, [.. entries.Select(entry => ("PUT", $"{entry.Type}/{entry.Id}", (JsonObject?)Body(entry, entry.Id)))], cancellation) is not { } answers)
        {
            return [];
        }

        var written = entries.Zip(answers.Select(StoredEntry.Of)).Where(pair => pair.Second.Succeeded).Select(pair => pair.First).ToList();
        written.ForEach(entry => ids[entry.Index] = entry.Id);
        return [.. written.Select(entry => entry.Index)];
    }

    private async Task<WriteResult?> WriteAsync(SessionEntry entry)
    {
        if (entry.Type != "Device")
        {
            return await PlaceAsync(entry);
        }

        // Sessions of different patients share devices.
        await using var turn = await target.SharedResources.EnterAsync([entry.Condition!], cancellation);
        var stop = await PlaceAsync(entry);
        if (stop is null)
        {
            turn.Exist();
        }

        return stop;
    }

    private async Task<WriteResult?> PlaceAsync(SessionEntry entry)
    {
        var found = recorded.Found.GetValueOrDefault(entry.Index);
        if (found is null && ownIds)
        {
            var answer = await target.UpdateAsync(entry.Type, entry.Id, Body(entry, entry.Id).ToBytes(), null, cancellation);
            if (answer.Succeeded)
            {
                ids[entry.Index] = entry.Id;
                return null;
            }

            if (recorded.Failure is not null || answer.Status is not (400 or 404 or 405 or 422 or 501) || RefusalText.IsAboutContent(answer))
            {
                return Refused(entry, answer);
            }

            // Declared, and refused all the same.
            ownIds = false;
        }

        if (found is null)
        {
            var look = await RecordSearch.FindAsync(target, bundle, entry, cancellation);
            if (look.Doubt is not null || look.Failure is not null)
            {
                return Unseen(entry, look);
            }

            found = look.Found.GetValueOrDefault(entry.Index);
        }

        return found is null ? await CreateAsync(entry) : await UpdateAsync(entry, found);
    }

    private async Task<WriteResult?> CreateAsync(SessionEntry entry)
    {
        var condition = target.Memory.Capabilities!.Resources.GetValueOrDefault(entry.Type)?.ConditionalCreate == true ? entry.Condition : null;
        var answer = await target.CreateAsync(entry.Type, Body(entry, null).ToBytes(), condition, cancellation);
        if (!answer.Succeeded && answer.Status is not (409 or 412))
        {
            return Refused(entry, answer);
        }

        // Locations are relative or absolute or missing, bodies whole or empty: what is not said is searched for.
        var id = !answer.Succeeded ? null
            : ResourcePlaces.IdIn(answer.Location) ?? (answer.ResourceType == entry.Type ? answer.Resource.Text("id") : null);
        if (id is null)
        {
            var look = await RecordSearch.FindAsync(target, bundle, entry, cancellation);
            if (look.Doubt is not null || look.Failure is not null)
            {
                return Unseen(entry, look) with { Verdict = answer.Succeeded ? WriteVerdict.Unclear : WriteVerdict.NotStored };
            }

            if (!look.Found.TryGetValue(entry.Index, out var found))
            {
                return answer.Succeeded ? Refused(entry, answer) with { Verdict = WriteVerdict.Unclear } : Refused(entry, answer);
            }

            id = found.Id;
        }

        ids[entry.Index] = id;
        return null;
    }

    private async Task<WriteResult?> UpdateAsync(SessionEntry entry, RecordedEntry found)
    {
        ids[entry.Index] = found.Id;
        var body = Body(entry, found.Id);
        if (ResourceComparison.Find(entry.Label, body.ToElement(), found.Resource).Count == 0)
        {
            return null;
        }

        var answer = await target.UpdateAsync(entry.Type, found.Id, body.ToBytes(), found.VersionId, cancellation);
        return answer.Succeeded ? null
            : answer.Status is 409 or 412 or 500 ? await UpdateAnewAsync(entry, found, body, answer)
            : Refused(entry, answer);
    }

    /// <summary>A version that is no longer the latest is answered by 412, 409 or 500: what lies there now decides.</summary>
    private async Task<WriteResult?> UpdateAnewAsync(SessionEntry entry, RecordedEntry found, JsonObject body, TargetAnswer refusal)
    {
        var now = await target.GetAsync($"{entry.Type}/{found.Id}", cancellation);
        if (!now.Succeeded || now.ResourceType != entry.Type)
        {
            return Refused(entry, refusal);
        }

        if (ResourceComparison.Find(entry.Label, body.ToElement(), now.Resource).Count == 0)
        {
            return null;
        }

        var version = now.Resource.Object("meta").Text("versionId");
        if (refusal.Status == 500 && version == found.VersionId)
        {
            return Refused(entry, refusal);
        }

        var answer = await target.UpdateAsync(entry.Type, found.Id, body.ToBytes(), version == found.VersionId ? null : version, cancellation);
        return answer.Succeeded ? null : Refused(entry, answer);
    }

    private JsonObject Body(SessionEntry entry, string? id)
    {
        var places = id is null ? ids.ToImmutable().Remove(entry.Index) : ids.ToImmutable().SetItem(entry.Index, id);
        return ResourcePlaces.Lead(entry, bundle, places);
    }

    private WriteResult Refused(SessionEntry entry, TargetAnswer answer) =>
        new(rung, WriteVerdict.NotStored, answer, RefusalText.Of(answer, entry)) { IsAboutContent = RefusalText.IsAboutContent(answer) };

    private WriteResult Unseen(SessionEntry entry, RecordedSession look)
    {
        var answer = look.Failure ?? TargetAnswer.None(AnswerKind.Answered, "the search before writing");
        return new(rung, WriteVerdict.NotStored, answer, RefusalText.Of(answer, entry)) { Doubt = look.Doubt, WasReading = true };
    }
}
