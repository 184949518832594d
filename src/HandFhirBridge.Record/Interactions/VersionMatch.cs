using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Storage;

namespace HandFhirBridge.Record.Interactions;

/// <summary>If-Match against the version that stands (R4 http.html#concurrency).</summary>
internal static class VersionMatch
{
    /// <summary>Refuses (412) where another version stands than the one named.</summary>
    /// <param name="ifMatch">ETag, weak or strong; null asks for none.</param>
    /// <param name="current">What stands; null where nothing does.</param>
    public static void Demand(string? ifMatch, StoredResource? current)
    {
        if (ifMatch is not null && !Same(ifMatch, current))
        {
            throw RecordRefusal.Precondition($"The version asked for is {ifMatch}, the one that stands is {current?.ETag ?? "none"}. Read it again, then decide.");
        }
    }

    /// <summary>Refuses (412) where the version that stands is one that must not.</summary>
    /// <param name="ifNoneMatch">"*" for any version, or an ETag; null asks for none.</param>
    /// <param name="standing">What stands and is not deleted; null where nothing does.</param>
    public static void DemandNone(string? ifNoneMatch, StoredResource? standing)
    {
        if (standing is not null && ifNoneMatch is not null && (ifNoneMatch.Trim() == "*" || Same(ifNoneMatch, standing)))
        {
            throw RecordRefusal.Precondition($"{standing.Reference} stands already, as {standing.ETag}; If-None-Match {ifNoneMatch} asked that it does not. Nothing was written.");
        }
    }

    /// <summary>Whether an ETag names this version; the weak mark makes no difference.</summary>
    public static bool Same(string tag, StoredResource? current) =>
        current is not null && (tag.StartsWith("W/", StringComparison.Ordinal) ? tag : "W/" + tag) == current.ETag;
}
