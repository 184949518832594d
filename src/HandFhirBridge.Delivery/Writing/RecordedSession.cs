using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>What a target holds of a session.</summary>
/// <param name="Found">By 0-based entry.</param>
/// <param name="IsThisRevision">True if the report there is of the revision to be written.</param>
/// <param name="Doubt">Why a person must decide; null if nobody needs to.</param>
/// <param name="Failure">The answer that stood in the way of looking; null if there was none.</param>
public sealed record RecordedSession(
    ImmutableDictionary<int, RecordedEntry> Found, bool IsThisRevision, Problem? Doubt, TargetAnswer? Failure)
{
    /// <summary>Of a session that was never sent.</summary>
    public static RecordedSession Nothing { get; } = new(ImmutableDictionary<int, RecordedEntry>.Empty, false, null, null);

    /// <summary>True if all of it is there in the right revision.</summary>
    public bool Holds(SessionBundle bundle) => Failure is null && Doubt is null && IsThisRevision && Found.Count == bundle.Entries.Length;

    /// <summary>What is not there, in words.</summary>
    public string Missing(SessionBundle bundle) =>
        string.Join(", ", bundle.Entries.Where(entry => !Found.ContainsKey(entry.Index)).Select(entry => entry.Label));
}
