using HandFhirBridge.Record.Storage;
using Microsoft.AspNetCore.Http;

namespace HandFhirBridge.Record.Interactions;

/// <summary>Delete (R4 http.html#delete). The history stays and can be read by version.</summary>
/// <param name="session">Holds the write lock.</param>
internal sealed class DeleteInteraction(RecordSession session)
{
    /// <param name="type">Resource type.</param>
    /// <param name="id">Logical id; one that does not exist or is deleted already is no error.</param>
    /// <param name="ifMatch">ETag of the version the client knows; null asks for none.</param>
    public Written Run(string type, string id, string? ifMatch)
    {
        var current = session.Read(type, id);
        VersionMatch.Demand(ifMatch, current);
        return new(current is null || current.Deleted ? null : session.Delete(current), StatusCodes.Status204NoContent);
    }
}
