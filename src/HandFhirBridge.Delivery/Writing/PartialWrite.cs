using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What an attempt stored of a session before the target refused the rest; taken back by status, so that nobody reads half a session as a whole.</summary>
internal sealed class PartialWrite
{
    private readonly Dictionary<string, (SessionEntry Entry, SessionBundle Form, ImmutableDictionary<int, string> Ids)> stored = new(StringComparer.Ordinal);

    /// <summary>True if anything that a reader could take for a result is there.</summary>
    public bool Any => stored.Count > 0;

    /// <summary>Remembers what lies at the target.</summary>
    public void Note(SessionBundle form, ImmutableDictionary<int, string> ids)
    {
        foreach (var entry in form.Entries.Where(entry => HasStatus(entry) && ids.ContainsKey(entry.Index)))
        {
            stored[$"{entry.Type}/{ids[entry.Index]}"] = (entry, form, ids);
        }
    }

    /// <summary>Forgets what belongs to a form that is stored in full.</summary>
    public void Keep(SessionBundle form, ImmutableDictionary<int, string> ids)
    {
        foreach (var entry in form.Entries.Where(entry => ids.ContainsKey(entry.Index)))
        {
            stored.Remove($"{entry.Type}/{ids[entry.Index]}");
        }
    }

    /// <summary>Marks all of it entered-in-error.</summary>
    /// <returns>What could not be marked, in words; empty if all is.</returns>
    public async Task<string> TakeBackAsync(FhirTarget target, CancellationToken cancellation)
    {
        var left = new List<string>();
        foreach (var (entry, form, ids) in stored.Values)
        {
            var resource = ResourcePlaces.Lead(entry, form, ids);
            resource["status"] = "entered-in-error";
            var answer = await target.UpdateAsync(entry.Type, ids[entry.Index], resource.ToBytes(), null, cancellation);
            if (!answer.Succeeded)
            {
                left.Add($"{entry.Label}: {RefusalText.Brief(answer)}");
            }
        }

        return string.Join("; ", left);
    }

    private static bool HasStatus(SessionEntry entry) => entry.Type is "Observation" or "DiagnosticReport" or "QuestionnaireResponse" or "DocumentReference";
}
