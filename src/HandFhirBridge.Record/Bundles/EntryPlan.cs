using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Bundles;

/// <summary>One entry of a bundle: what it asks for, and where its resource will stand.</summary>
/// <param name="index">Place in the bundle, from 0.</param>
/// <param name="entry">The entry.</param>
/// <param name="request">Its request, taken apart.</param>
/// <param name="received">Its resource; null for a GET or DELETE.</param>
internal sealed class EntryPlan(int index, Bundle.EntryComponent entry, EntryRequest request, ReceivedResource? received)
{
    private StoredResource? match;
    private string? settled;

    public int Index => index;

    public Bundle.EntryComponent Entry => entry;

    public EntryRequest Request => request;

    public ReceivedResource? Received => received;

    public string Path => $"Bundle.entry[{index}]";

    /// <summary>Type/id under which the resource will stand; null for a GET.</summary>
    public string? Place => settled is null ? null : $"{request.Type}/{settled}";

    /// <summary>True where a conditional create found what it would have created.</summary>
    public bool Stands => request.Verb == Bundle.HTTPVerb.POST && match is not null;

    /// <summary>Decides where the resource will stand, before anything is written, so that others can refer to it.</summary>
    public void Settle(SingleMatch matching)
    {
        switch (request.Verb)
        {
            case Bundle.HTTPVerb.POST:
                match = entry.Request!.IfNoneExist is { } condition ? matching.Of(request.Type, condition) : null;
                settled = match?.Id ?? CreateInteraction.NewId();
                break;
            case Bundle.HTTPVerb.PUT when request.Query is { } search:
                match = matching.Of(request.Type, search);
                settled = UpdateInteraction.Settle(received!, match);
                received!.Resource.Id = settled;
                break;
            case Bundle.HTTPVerb.PUT or Bundle.HTTPVerb.DELETE:
                settled = request.Id;
                break;
        }
    }

    /// <summary>Carries the write out.</summary>
    public Written Write(RecordSession session, SingleMatch matching) => request.Verb switch
    {
        Bundle.HTTPVerb.POST when match is not null => new(match, 200),
        Bundle.HTTPVerb.POST => new CreateInteraction(session, matching).Under(received!, settled!),
        Bundle.HTTPVerb.PUT => new UpdateInteraction(session, matching).Run(received!, settled!, entry.Request!.IfMatch, entry.Request.IfNoneMatch),
        _ => new DeleteInteraction(session).Run(request.Type, settled!, entry.Request!.IfMatch),
    };
}
