using System.Globalization;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// Results of earlier revisions that the session no longer has. They would stand in the chart as valid beside its correction, so
/// they go out with it, marked entered-in-error.
/// </summary>
internal static class DroppedResults
{
    /// <summary>The session with all that it dropped, placed before its report; unchanged if it dropped nothing.</summary>
    /// <param name="session">The whole session.</param>
    /// <param name="earlier">Mapped transactions of earlier revisions, in their order.</param>
    public static SessionBundle AddTo(SessionBundle session, IEnumerable<ReadOnlyMemory<byte>> earlier)
    {
        List<SessionBundle> revisions = [.. earlier.Select(bundle => SessionBundle.Of(bundle, session.Patient, session.Chart)), session];
        var dropped = new Dictionary<string, SessionEntry>(StringComparer.Ordinal);
        foreach (var (before, after) in revisions.Zip(revisions.Skip(1)))
        {
            foreach (var result in before.Entries.Where(entry => entry.Type == "Observation" && !Has(after, entry) && !Has(session, entry)))
            {
                dropped[result.FullUrl] = TakeBack(result, after.Revision);
            }
        }

        return dropped.Count == 0 ? session : Join(session, [.. dropped.Values], revisions);
    }

    private static bool Has(SessionBundle session, SessionEntry entry) => session.Entries.Any(own => own.FullUrl == entry.FullUrl);

    private static SessionEntry TakeBack(SessionEntry result, int revision)
    {
        var reason = string.Create(CultureInfo.InvariantCulture, $"Revision {revision} of the session corrects it and does not have this result.");
        var resource = result.Resource.ToTree();
        resource["status"] = "entered-in-error";
        resource["text"] = new JsonObject
        {
            ["status"] = "generated",
            ["div"] = $"<div xmlns=\"http://www.w3.org/1999/xhtml\"><p><b>ENTERED IN ERROR: this result must not be used. {reason}</b></p></div>",
        };
        if (resource["extension"] is not JsonArray extensions)
        {
            resource["extension"] = extensions = new JsonArray();
        }

        extensions.Add(new JsonObject { ["url"] = Extensions.StatusReason, ["valueCodeableConcept"] = new JsonObject { ["text"] = reason } });
        return result with { Resource = resource.ToElement() };
    }

    private static SessionBundle Join(SessionBundle session, SessionEntry[] dropped, List<SessionBundle> revisions)
    {
        var texts = dropped.Select(entry => entry.Resource.GetRawText()).ToList();
        // A dropped result may name a kit that the session no longer names.
        var devices = revisions.SelectMany(revision => revision.Entries).DistinctBy(entry => entry.FullUrl)
            .Where(entry => entry.Type == "Device" && !Has(session, entry) && texts.Exists(text => text.Contains(entry.FullUrl, StringComparison.Ordinal)));
        var own = session.Entries.Select(entry => entry.Type == "Provenance" ? Targeting(entry, dropped) : entry).ToList();
        own.InsertRange(session.Report.Index, dropped);
        return session with { Entries = [.. devices.Concat(own).Select((entry, index) => entry with { Index = index })] };
    }

    private static SessionEntry Targeting(SessionEntry provenance, SessionEntry[] dropped)
    {
        var resource = provenance.Resource.ToTree();
        foreach (var entry in dropped)
        {
            (resource["target"] as JsonArray)?.Add(new JsonObject { ["reference"] = entry.FullUrl });
        }

        return provenance with { Resource = resource.ToElement() };
    }
}
