using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Search;

/// <summary>Finds what a page of matches includes (R4 search.html#include).</summary>
/// <param name="session">Where it reads.</param>
internal sealed class Includes(RecordSession session)
{
    // :iterate follows what was included; a record that points at itself in a ring ends by itself, a long chain ends here.
    private const int MaxRounds = 8;
    private const string Columns = "r.type, r.id, r.version, r.updated, r.deleted, r.json";

    public IReadOnlyList<StoredResource> Of(IReadOnlyList<Inclusion> inclusions, IReadOnlyList<StoredResource> matches)
    {
        var seen = matches.Select(m => m.Reference).ToHashSet();
        var included = new List<StoredResource>();
        var sources = matches;
        for (var round = 0; round < MaxRounds && sources.Count > 0; round++)
        {
            var found = inclusions
                .Where(i => round == 0 || i.Iterate)
                .SelectMany(i => i.Reverse ? Reverse(i, sources) : Forward(i, sources))
                .Where(r => seen.Add(r.Reference))
                .ToList();
            included.AddRange(found);
            sources = found;
        }

        return included;
    }

    private IEnumerable<StoredResource> Forward(Inclusion inclusion, IReadOnlyList<StoredResource> sources) => session.Rows(
        $"""
        SELECT DISTINCT {Columns} FROM resource s
          JOIN reference f ON f.rid = s.rid AND f.key IN @Keys
          JOIN resource r ON r.type = substr(f.target, 1, instr(f.target, '/') - 1) AND r.id = substr(f.target, instr(f.target, '/') + 1)
          WHERE s.type = @source AND s.id IN @ids AND r.deleted = 0 AND (@target IS NULL OR r.type = @target)
        """,
        new
        {
            inclusion.Parameter.Keys,
            source = inclusion.SourceType,
            ids = sources.Where(s => s.Type == inclusion.SourceType).Select(s => s.Id),
            target = inclusion.TargetType,
        });

    private IEnumerable<StoredResource> Reverse(Inclusion inclusion, IReadOnlyList<StoredResource> targets) => session.Rows(
        $"""
        SELECT DISTINCT {Columns} FROM reference f JOIN resource r ON r.rid = f.rid
          WHERE f.key IN @Keys AND f.target IN @targets AND r.deleted = 0
        """,
        new
        {
            inclusion.Parameter.Keys,
            targets = targets.Where(t => inclusion.TargetType is null || t.Type == inclusion.TargetType).Select(t => t.Reference),
        });
}
