using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>Where the resources of a session lie at a target, and references to them.</summary>
public static partial class ResourcePlaces
{
    /// <summary>Relative address at the target by what the session's resources refer to each other by.</summary>
    /// <param name="bundle">The session.</param>
    /// <param name="ids">Ids at the target by 0-based entry; an entry without one has no place.</param>
    public static Dictionary<string, string> Of(SessionBundle bundle, IReadOnlyDictionary<int, string> ids)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(ids);
        return bundle.Entries.Where(entry => ids.ContainsKey(entry.Index))
            .ToDictionary(entry => entry.FullUrl, entry => $"{entry.Type}/{ids[entry.Index]}", StringComparer.Ordinal);
    }

    /// <summary>A copy of the resource under its id at the target, with references to the session's other resources led there.</summary>
    /// <param name="entry">The resource.</param>
    /// <param name="bundle">The session it belongs to.</param>
    /// <param name="ids">Ids at the target by 0-based entry; a reference to an entry without one stays as it is.</param>
    public static JsonObject Lead(SessionEntry entry, SessionBundle bundle, IReadOnlyDictionary<int, string> ids)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentNullException.ThrowIfNull(bundle);
        ArgumentNullException.ThrowIfNull(ids);
        var places = Of(bundle, ids);
        var resource = entry.Resource.ToTree();
        foreach (var element in resource.ObjectsWithin())
        {
            if (element.Text("reference") is { } reference && places.TryGetValue(reference, out var place))
            {
                element["reference"] = place;
            }
        }

        if (ids.TryGetValue(entry.Index, out var id))
        {
            resource["id"] = id;
        }
        else
        {
            resource.Remove("id");
        }

        return resource;
    }

    /// <summary>True if both name the same resource: relative or absolute, with a version or without.</summary>
    public static bool IsSame(string sent, string kept) =>
        TypeAndId().Match(sent) is { Success: true } one && TypeAndId().Match(kept) is { Success: true } other
        && one.Groups[1].Value == other.Groups[1].Value;

    /// <summary>Logical id in a location or reference; null if there is none.</summary>
    public static string? IdIn(string? location) =>
        location is not null && TypeAndId().Match(location) is { Success: true } match ? match.Groups[2].Value : null;

    [GeneratedRegex(@"(?:^|/)([A-Z][A-Za-z]+/([A-Za-z0-9\-.]{1,64}))(?:/_history/[^/]+)?/?$")]
    private static partial Regex TypeAndId();
}
