using System.Globalization;
using System.Net;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Interactions;

/// <summary>Read, and read of a version (R4 http.html#read, #vread).</summary>
/// <param name="session">Where it reads.</param>
internal sealed class ReadInteraction(RecordSession session)
{
    /// <summary>The version that stands; 404 for what never was, 410 for what was deleted.</summary>
    public StoredResource Current(string type, string id) => Standing(session.Read(type, id), $"{type}/{id}");

    /// <summary>One version; 410 where it is a deletion.</summary>
    public StoredResource Version(string type, string id, string version)
    {
        var place = $"{type}/{id}/_history/{version}";
        return long.TryParse(version, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? Standing(session.Versions(type, id, number).SingleOrDefault(), place)
            : throw RecordRefusal.NotFound($"There is no {place}.");
    }

    private static StoredResource Standing(StoredResource? stored, string place) => stored switch
    {
        null => throw RecordRefusal.NotFound($"There is no {place}."),
        { Deleted: true } => throw new RecordRefusal(HttpStatusCode.Gone, OperationOutcome.IssueType.Deleted, $"{place} was deleted."),
        _ => stored,
    };
}
