using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>One entry of a bundle: what it asks for, and where its resource will stand.</summary>
internal sealed class EntryPlan
{
    private StoredResource? match;
    private string? reserved;

    private EntryPlan(Bundle.EntryComponent entry, int index, Bundle.HTTPVerb verb, string url)
    {
        (Entry, Index, Verb, Url) = (entry, index, verb, url);
    }

    public Bundle.EntryComponent Entry { get; }

    public int Index { get; }

    public Bundle.HTTPVerb Verb { get; }

    public string Url { get; }

    public string Path => $"Bundle.entry[{Index}]";

    /// <summary>Type/id under which the resource will stand; null for reads and deletions.</summary>
    public string? Place { get; private set; }

    public static EntryPlan Of(Bundle.EntryComponent entry, int index)
    {
        var path = $"Bundle.entry[{index}]";
        var verb = entry.Request?.Method ?? throw RecordRefusal.BadRequest("The entry has no request.", path);
        var url = entry.Request.Url ?? throw RecordRefusal.BadRequest("The request has no url.", $"{path}.request");
        if (verb is Bundle.HTTPVerb.POST or Bundle.HTTPVerb.PUT)
        {
            var resource = entry.Resource ?? throw RecordRefusal.BadRequest("The entry has no resource.", path);
            if (url.Split('/', '?')[0] != resource.TypeName)
            {
                throw RecordRefusal.BadRequest($"The url is {url}, the resource is a {resource.TypeName}.", $"{path}.request.url");
            }
        }
        else if (verb is not (Bundle.HTTPVerb.GET or Bundle.HTTPVerb.DELETE))
        {
            throw RecordRefusal.BadRequest($"{verb} is not supported in a bundle.", $"{path}.request.method");
        }

        return new(entry, index, verb, url);
    }

    /// <summary>Decides where the resource will stand, so that others can refer to it before it is written.</summary>
    public void Settle(Writes writes)
    {
        switch (Verb)
        {
            case Bundle.HTTPVerb.POST:
                match = Entry.Request!.IfNoneExist is { } ifNone ? writes.Match(Entry.Resource!.TypeName, ifNone) : null;
                reserved = match?.Id ?? Writes.NewId();
                Place = $"{Entry.Resource!.TypeName}/{reserved}";
                break;
            case Bundle.HTTPVerb.PUT when Url.Split('?', 2) is [{ } type, { } condition]:
                match = writes.Match(type, condition);
                reserved = match?.Id ?? Entry.Resource!.Id ?? Writes.NewId();
                Place = $"{type}/{reserved}";
                break;
            case Bundle.HTTPVerb.PUT:
                Place = Url;
                break;
        }
    }

    /// <summary>Carries the write out; null for a deletion of nothing.</summary>
    public Written? Write(Writes writes)
    {
        switch (Verb)
        {
            case Bundle.HTTPVerb.POST:
                return match is null ? writes.Create(Entry.Resource!, null, reserved) : new(match, 200);
            case Bundle.HTTPVerb.PUT when reserved is not null:
                if (match is not null && Entry.Resource!.Id is { } own && own != match.Id)
                {
                    throw RecordRefusal.BadRequest($"The resource's id is \"{own}\", but {match.Reference} matches.", Path);
                }

                Entry.Resource!.Id = reserved;
                return writes.Update(Entry.Resource, reserved, Entry.Request!.IfMatch);
            case Bundle.HTTPVerb.PUT:
                return writes.Update(Entry.Resource!, Url.Split('/') is [_, var id] ? id : throw RecordRefusal.BadRequest($"{Url} is not Type/id.", Path), Entry.Request!.IfMatch);
            default:
                return Url.Split('/') is [var type, var gone]
                    ? writes.Delete(type, gone, Entry.Request!.IfMatch)
                    : throw RecordRefusal.BadRequest($"{Url} is not Type/id.", Path);
        }
    }
}
