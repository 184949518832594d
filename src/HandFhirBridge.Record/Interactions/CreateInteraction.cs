using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Interactions;

/// <summary>Create, plain and conditional (R4 http.html#create, #ccreate).</summary>
/// <param name="session">Holds the write lock.</param>
/// <param name="matching">Finds what If-None-Exist asks for.</param>
internal sealed class CreateInteraction(RecordSession session, SingleMatch matching)
{
    /// <param name="received">What is stored; an id of its own is not kept.</param>
    /// <param name="condition">Search of If-None-Exist; a single match is left as it is. Null creates in any case.</param>
    public Written Run(ReceivedResource received, string? condition) =>
        condition is not null && matching.Of(received.Resource.TypeName, condition) is { } match
            ? new(match, StatusCodes.Status200OK)
            : Under(received, NewId());

    /// <summary>Creates under an id that was promised before, as in a transaction.</summary>
    public Written Under(ReceivedResource received, string id)
    {
        received.Resource.Id = id;
        return new(session.Write(received), StatusCodes.Status201Created);
    }

#pragma warning disable RS0030 // The one place where this server's own ids are made: they must be new, not repeatable.
    public static string NewId() => Guid.NewGuid().ToString();
#pragma warning restore RS0030
}
