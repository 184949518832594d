using System.Net;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Interactions;

/// <summary>Create, update and delete, plain and conditional (R4 http.html), inside one write transaction.</summary>
/// <param name="session">Holds the write lock, so that a condition cannot change between its test and the write.</param>
internal sealed class Writes(RecordSession session)
{
    /// <summary>Creates under a new id, or under <paramref name="id"/> where one was promised.</summary>
    /// <param name="resource">What is stored.</param>
    /// <param name="condition">Search of If-None-Exist; a single match is left as it is.</param>
    /// <param name="id">Id reserved within a transaction; null makes one.</param>
    public Written Create(Resource resource, string? condition, string? id = null)
    {
        if (condition is not null && Match(resource.TypeName, condition) is { } match)
        {
            return new(match, StatusCodes.Status200OK);
        }

        resource.Id = id ?? NewId();
        return new(session.Write(resource), StatusCodes.Status201Created);
    }

    /// <summary>Updates, or creates under the client's id.</summary>
    /// <param name="resource">What is stored; its id must be the one in the URL.</param>
    /// <param name="id">Id in the URL.</param>
    /// <param name="ifMatch">ETag of the version the client knows; null asks for none.</param>
    public Written Update(Resource resource, string id, string? ifMatch)
    {
        if (resource.Id != id)
        {
            throw RecordRefusal.BadRequest($"The resource's id is \"{resource.Id}\", the URL's is \"{id}\". Make them the same.", $"{resource.TypeName}.id");
        }

        if (!Id.IsValidValue(id))
        {
            throw RecordRefusal.BadRequest($"\"{id}\" is not an id of FHIR: letters, digits, hyphen and dot, at most 64.", $"{resource.TypeName}.id");
        }

        var current = session.Read(resource.TypeName, id);
        Demand(ifMatch, current);
        var fresh = current is null || current.Deleted;
        return new(session.Write(resource), fresh ? StatusCodes.Status201Created : StatusCodes.Status200OK);
    }

    /// <summary>Updates the single match of a search, or creates if there is none.</summary>
    public Written ConditionalUpdate(Resource resource, string condition, string? ifMatch)
    {
        if (Match(resource.TypeName, condition) is not { } match)
        {
            return resource.Id is { } own ? Update(resource, own, ifMatch) : Create(resource, null);
        }

        if (resource.Id is { } id && id != match.Id)
        {
            throw RecordRefusal.BadRequest($"The resource's id is \"{id}\", but {match.Reference} matches.", $"{resource.TypeName}.id");
        }

        resource.Id = match.Id;
        return Update(resource, match.Id, ifMatch);
    }

    /// <summary>Deletes; nothing to delete is no error.</summary>
    public Written? Delete(string type, string id, string? ifMatch)
    {
        var current = session.Read(type, id);
        Demand(ifMatch, current);
        return current is null || current.Deleted ? null : new(session.Delete(current), StatusCodes.Status204NoContent);
    }

    /// <summary>The single match of a conditional interaction, or null; more than one is refused (412).</summary>
    public StoredResource? Match(string type, string condition)
    {
        var query = new SearchQueryParser(type, lenient: false).Parse(QueryText.Parse(condition));
        if (query.Criteria.Count == 0)
        {
            throw RecordRefusal.Precondition($"The condition \"{condition}\" selects nothing in particular.");
        }

        var matches = new Searcher(session).FindAtMostTwo(query);
        return matches.Count <= 1
            ? matches.SingleOrDefault()
            : throw RecordRefusal.Precondition($"More than one {type} matches the condition; nothing was written.");
    }

#pragma warning disable RS0030 // The one place where ids of this server's own are made; they have to be unguessed, not repeatable.
    internal static string NewId() => Guid.NewGuid().ToString();
#pragma warning restore RS0030

    private static void Demand(string? ifMatch, StoredResource? current)
    {
        if (ifMatch is not null && ifMatch != current?.ETag)
        {
            throw new RecordRefusal(
                HttpStatusCode.PreconditionFailed,
                OperationOutcome.IssueType.Conflict,
                $"The version asked for is {ifMatch}, the one that stands is {current?.ETag ?? "none"}. Read it again, then decide.");
        }
    }
}
