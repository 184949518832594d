using System.Collections.Immutable;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>A successful answer to a transaction, every entry looked at: some servers answer 200 to what they stored in part.</summary>
/// <param name="Entries">In order; empty if the answer names none.</param>
/// <param name="Sent">How many were sent.</param>
public sealed record TransactionAnswer(ImmutableArray<StoredEntry> Entries, int Sent)
{
    /// <summary>True if the answer says of each entry how it went.</summary>
    public bool IsUsable => Entries.Length == Sent && Entries.All(entry => entry.Status is not null);

    /// <summary>True if each entry was stored.</summary>
    public bool IsComplete => IsUsable && Entries.All(entry => entry.Succeeded);

    /// <summary>Reads the answer.</summary>
    public static TransactionAnswer Of(TargetAnswer answer, int sent)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return new(answer.ResourceType == "Bundle" ? [.. answer.Resource.Objects("entry").Select(StoredEntry.Of)] : [], sent);
    }

    /// <summary>The entries that were not stored, in words.</summary>
    public string Describe(SessionBundle bundle)
    {
        ArgumentNullException.ThrowIfNull(bundle);
        return string.Join("; ", Entries.Zip(bundle.Entries).Where(pair => !pair.First.Succeeded).Select(pair =>
            $"{pair.Second.Label}: HTTP {pair.First.Status}{string.Concat(pair.First.Issues.Select(issue => $" {issue.Code} {issue.Text}"))}"));
    }
}
