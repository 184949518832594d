using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Documents of earlier revisions, which the new one replaces (R4 DocumentReference.relatesTo and status superseded).</summary>
internal sealed class DocumentSuccession
{
    private readonly List<RecordedEntry> older = [];
    private readonly bool withdrawn;

    private DocumentSuccession(bool withdrawn) => this.withdrawn = withdrawn;

    /// <summary>Why a person must decide; null if nobody needs to.</summary>
    public Problem? Doubt { get; private set; }

    /// <summary>Answer that stood in the way of looking; null if there was none.</summary>
    public TargetAnswer? Failure { get; private set; }

    /// <summary>Looks for the documents of all earlier revisions.</summary>
    public static async Task<DocumentSuccession> FindAsync(FhirTarget target, SessionBundle bundle, CancellationToken cancellation)
    {
        var succession = new DocumentSuccession(bundle.IsWithdrawn);
        for (var revision = bundle.Revision - 1; revision > 0 && succession is { Doubt: null, Failure: null }; revision--)
        {
            var recorded = await RecordSearch.FindAsync(target, bundle, ReportDocument.ToFind(bundle.Report, revision), cancellation);
            (succession.Doubt, succession.Failure) = (recorded.Doubt, recorded.Failure);
            succession.older.AddRange(recorded.Found.Values);
        }

        return succession;
    }

    /// <summary>The session with its document naming the one it replaces.</summary>
    public SessionBundle Name(SessionBundle bundle)
    {
        if (older.Count == 0)
        {
            return bundle;
        }

        var document = bundle.Report.Resource.ToTree();
        document["relatesTo"] = new JsonArray(new JsonObject
        {
            ["code"] = "replaces",
            ["target"] = new JsonObject { ["reference"] = $"DocumentReference/{older[0].Id}" },
        });
        return bundle with { Entries = bundle.Entries.SetItem(bundle.Report.Index, bundle.Report with { Resource = document.ToElement() }) };
    }

    /// <summary>
    /// Marks the earlier documents superseded, or entered-in-error where the session is withdrawn. A target that does not let them be
    /// changed still holds the new one's relation; of a withdrawn session none may be left to be read as valid.
    /// </summary>
    /// <returns>What to add to the record of the attempt, and the answer after which it is to be tried again, if there is one.</returns>
    public async Task<(string Note, TargetAnswer? Again)> SupersedeAsync(FhirTarget target, CancellationToken cancellation)
    {
        var refused = new List<string>();
        var mark = withdrawn ? "entered-in-error" : "superseded";
        foreach (var document in older.Where(d => withdrawn ? d.Resource.Text("status") != mark : d.Resource.Text("status") == "current"))
        {
            var resource = document.Resource.ToTree();
            resource["status"] = mark;
            if (withdrawn)
            {
                resource["docStatus"] = mark;
            }

            var answer = await target.UpdateAsync("DocumentReference", document.Id, resource.ToBytes(), document.VersionId, cancellation);
            if (answer.Status is null or 408 or 409 or 412 or 429 or >= 500 || (withdrawn && !answer.Succeeded))
            {
                return ("", answer);
            }

            if (!answer.Succeeded)
            {
                refused.Add($"DocumentReference/{document.Id}: {RefusalText.Brief(answer)}");
            }
        }

        var note = older.Count == 0 ? ""
            : refused.Count == 0 ? $"; {older.Count} earlier documents are {mark}"
            : $"; the target did not let earlier documents be marked superseded ({string.Join("; ", refused)}), but the new one says that it replaces them";
        return (note, null);
    }
}
