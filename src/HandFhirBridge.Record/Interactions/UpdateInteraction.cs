using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Interactions;

/// <summary>Update, update as create, and conditional update (R4 http.html#update, #upsert, #cond-update).</summary>
/// <param name="session">Holds the write lock.</param>
/// <param name="matching">Finds what a conditional update asks for.</param>
internal sealed class UpdateInteraction(RecordSession session, SingleMatch matching)
{
    /// <param name="received">What is stored; its id must be the URL's.</param>
    /// <param name="id">Id in the URL.</param>
    /// <param name="ifMatch">ETag of the version the client knows; null asks for none.</param>
    /// <param name="ifNoneMatch">"*" writes only where nothing stands (RFC 9110, 13.1.2); null asks for none.</param>
    public Written Run(ReceivedResource received, string id, string? ifMatch, string? ifNoneMatch = null)
    {
        var (resource, type) = (received.Resource, received.Resource.TypeName);
        if (!Id.IsValidValue(id))
        {
            throw RecordRefusal.BadRequest($"\"{id}\" is not an id of FHIR: letters, digits, hyphen and dot, at most 64.", $"{type}.id");
        }

        if (resource.Id != id)
        {
            throw RecordRefusal.BadRequest($"The resource's id is \"{resource.Id}\", the URL's is \"{id}\". Make them the same.", $"{type}.id");
        }

        var current = session.Read(type, id);
        VersionMatch.Demand(ifMatch, current);
        var isNew = current is null || current.Deleted;
        VersionMatch.DemandNone(ifNoneMatch, isNew ? null : current);
        return new(session.Write(received), isNew ? StatusCodes.Status201Created : StatusCodes.Status200OK);
    }

    /// <summary>Updates the single match of a search; creates if there is none.</summary>
    public Written RunConditional(ReceivedResource received, string condition, string? ifMatch)
    {
        var id = Settle(received, matching.Of(received.Resource.TypeName, condition));
        received.Resource.Id = id;
        return Run(received, id, ifMatch);
    }

    /// <summary>The id under which a conditional update will store: the match's, else the resource's own, else a new one.</summary>
    public static string Settle(ReceivedResource received, StoredResource? match) => (received.Resource.Id, match) switch
    {
        ({ } own, { } found) when own != found.Id => throw RecordRefusal.BadRequest(
            $"The resource's id is \"{own}\", but {found.Reference} matches the condition. Leave the id out, or correct it.", $"{received.Resource.TypeName}.id"),
        (_, { } found) => found.Id,
        ({ } own, null) => own,
        _ => CreateInteraction.NewId(),
    };
}
