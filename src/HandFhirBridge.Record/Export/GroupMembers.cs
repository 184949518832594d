using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using HandFhirBridge.Record.Search;
using HandFhirBridge.Record.Storage;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Export;

/// <summary>Who belongs to a Group (R4 group.html): the patients it lists and those of groups it lists, without members that have left.</summary>
/// <param name="session">Where it reads.</param>
/// <param name="baseUrl">This server's base.</param>
internal sealed class GroupMembers(RecordSession session, string baseUrl)
{
    /// <summary>Members as <c>Patient/id</c>, whether they are here or not.</summary>
    /// <exception cref="RecordRefusal">404 or 410 for the group; 400 for one that describes its members without listing them.</exception>
    public IReadOnlySet<string> Of(string id)
    {
        var group = (Group)new ReadInteraction(session).Current("Group", id).Resource();
        if (group.Actual == false)
        {
            throw RecordRefusal.BadRequest($"Group/{id} describes its members (actual is false) and lists none. Export a group that lists them.", "Group.actual");
        }

        var (found, seen) = (new SortedSet<string>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal) { id });
        Add(group, found, seen);
        return found;
    }

    private void Add(Group group, SortedSet<string> found, HashSet<string> seen)
    {
        foreach (var reference in group.Member.Where(m => m.Inactive != true).Select(m => m.Entity?.Reference).OfType<string>())
        {
            switch (ReferenceText.Relative(ReferenceText.Unversioned(reference), baseUrl).Split('/'))
            {
                case ["Patient", var patient]:
                    found.Add($"Patient/{patient}");
                    break;
                case ["Group", var inner] when seen.Add(inner) && session.Read("Group", inner) is { Deleted: false } stored:
                    Add((Group)stored.Resource(), found, seen);
                    break;
            }
        }
    }
}
