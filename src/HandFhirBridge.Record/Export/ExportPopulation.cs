using System.Data;
using System.Globalization;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Operations;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Export;

/// <summary>
/// Which resources an export gives. For patients these are the ones <c>$everything</c> gives, and each Provenance of one of them ("the
/// server SHALL include all available Provenance resources whose Provenance.target is a resource in the Patient compartment").
/// </summary>
/// <param name="session">The state that is exported.</param>
/// <param name="order">What is asked for.</param>
internal sealed class ExportPopulation(RecordSession session, ExportOrder order)
{
    // "Binary Resources whose content is associated with an individual patient SHALL be serialized as DocumentReference": they are left out.
    private const string OfPatient = "r.type = 'Binary' AND json_extract(r.json, '$.securityContext') IS NOT NULL";
    private const string Changed = "r.type IN @types AND (@since IS NULL OR r.updated > @since)";
    private const string Wanted = $"r.deleted = 0 AND {Changed} AND NOT ({OfPatient})";

    private readonly HashSet<string> persons = new(StringComparer.Ordinal);
    private readonly List<string> notes = [.. order.LeftOut];

    /// <summary>What the client should know, a sentence each.</summary>
    public IReadOnlyList<string> Notes => notes;

    private object Parameters => new { types = order.Types.Count > 0 ? order.Types : ResourceTypes.All, since = Since };

    // As versions are dated: the texts sort as the instants do.
    private string? Since => order.Since?.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'+00:00'", CultureInfo.InvariantCulture);

    private string From => order.Level == ExportLevel.System ? "resource r" : "temp.taken t JOIN resource r ON r.rid = t.rid";

    /// <summary>Finds whom it is about.</summary>
    /// <exception cref="RecordRefusal">The group or a patient is not here.</exception>
    public void Prepare()
    {
        if (order.Level == ExportLevel.System)
        {
            if (session.Scalar<long>($"SELECT COUNT(*) FROM resource r WHERE r.deleted = 0 AND {Changed} AND {OfPatient}", Parameters) is > 0 and var left)
            {
                notes.Add(string.Create(CultureInfo.InvariantCulture, $"{left} Binary resources with a securityContext are left out: read them one by one."));
            }
        }
        else
        {
            FindPersons();
            Take();
        }
    }

    public long Count() => session.Scalar<long>($"SELECT COUNT(*) FROM {From} WHERE {Wanted}", Parameters);

    /// <summary>Type and JSON of each resource, a type after the other.</summary>
    public IDataReader Resources() => session.Reader($"SELECT r.type, r.json FROM {From} WHERE {Wanted} ORDER BY r.type, r.rid", Parameters);

    /// <summary>What was deleted since the instant asked for, as <c>Type/id</c>; nothing where none was asked for.</summary>
    public IEnumerable<string> Deleted() => Since is null
        ? []
        : session.Rows($"SELECT type, id, version, updated, deleted, json FROM resource r WHERE r.deleted = 1 AND {Changed} ORDER BY r.type, r.rid", Parameters)
            .Where(WasWanted).Select(r => r.Reference);

    private void FindPersons()
    {
        var here = session.Rows("SELECT type, id, version, updated, deleted, NULL FROM resource WHERE type = 'Patient' AND deleted = 0", new { }).Select(p => p.Reference).ToHashSet(StringComparer.Ordinal);
        if (order.Level == ExportLevel.Group)
        {
            var members = new GroupMembers(session, order.BaseUrl).Of(order.GroupId!);
            notes.AddRange(members.Where(m => !here.Contains(m)).Select(m => $"{m} is a member of Group/{order.GroupId} and is not here."));
            persons.UnionWith(members);
        }
        else
        {
            persons.UnionWith(here);
        }

        if (order.Patients.FirstOrDefault(p => !here.Contains(p) || !persons.Contains(p)) is { } stranger)
        {
            throw RecordRefusal.BadRequest($"patient names {stranger}, which is not {(order.Level == ExportLevel.Group ? $"a member of Group/{order.GroupId}" : "here")}.");
        }

        if (order.Patients.Count > 0)
        {
            persons.IntersectWith(order.Patients);
        }
    }

    // The tables live in memory and go with the transaction.
    private void Take()
    {
        session.Execute("CREATE TEMP TABLE person (target TEXT PRIMARY KEY) WITHOUT ROWID; CREATE TEMP TABLE taken (rid INTEGER PRIMARY KEY)", new { });
        foreach (var some in persons.Chunk(10_000))
        {
            session.Execute("INSERT INTO temp.person SELECT value FROM json_each(@some)", new { some = System.Text.Json.JsonSerializer.Serialize(some) });
        }

        session.Execute(
            """
            INSERT INTO temp.taken SELECT r.rid FROM resource r JOIN temp.person p ON p.target = 'Patient/' || r.id WHERE r.type = 'Patient' AND r.deleted = 0;
            INSERT INTO temp.person SELECT @BaseUrl || '/' || target FROM temp.person;
            INSERT OR IGNORE INTO temp.taken SELECT r.rid FROM reference f JOIN resource r ON r.rid = f.rid
              WHERE f.key IN @ReferringKeys AND f.target IN (SELECT target FROM temp.person) AND r.deleted = 0 AND r.type <> 'Patient';
            INSERT OR IGNORE INTO temp.taken SELECT r.rid FROM temp.taken t JOIN resource o ON o.rid = t.rid
              JOIN reference f ON f.key IN @targetKeys AND f.target IN (o.type || '/' || o.id, @BaseUrl || '/' || o.type || '/' || o.id)
              JOIN resource r ON r.rid = f.rid WHERE r.deleted = 0;
            INSERT OR IGNORE INTO temp.taken SELECT r.rid FROM temp.taken t JOIN reference f ON f.rid = t.rid
              JOIN resource r ON r.type = substr(f.target, 1, instr(f.target, '/') - 1) AND r.id = substr(f.target, instr(f.target, '/') + 1)
              WHERE r.deleted = 0 AND r.type <> 'Patient';
            """,
            new { order.BaseUrl, PatientRecord.ReferringKeys, targetKeys = SearchParameters.Of("Provenance")["target"].Keys });
    }

    // A deletion has no references any more: what it was about, the version before it says.
    private bool WasWanted(StoredResource deleted)
    {
        if (order.Level == ExportLevel.System)
        {
            return true;
        }

        if (deleted.Type == "Patient")
        {
            return order.Patients.Count == 0 && (order.Level == ExportLevel.Patients || persons.Contains(deleted.Reference));
        }

        return session.Versions(deleted.Type, deleted.Id, deleted.Version - 1) is [{ Json: not null } before]
            && IndexValues.Of(before.Resource()).Any(row => row is { Table: "reference", Columns: [long key, string target, ..] }
                && PatientRecord.ReferringKeys.Contains(key) && ReferenceText.Relative(target, order.BaseUrl) is var person
                && (persons.Contains(person) || (order is { Level: ExportLevel.Patients, Patients.Count: 0 } && person.StartsWith("Patient/", StringComparison.Ordinal))));
    }
}
