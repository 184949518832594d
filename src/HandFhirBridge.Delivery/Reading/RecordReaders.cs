using System.Collections.Immutable;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>Reads each target that is written to.</summary>
/// <param name="readers">By the targets' names; at least one.</param>
public sealed class RecordReaders(IEnumerable<(string Target, RecordReader Reader)> readers)
{
    private readonly ImmutableArray<(string Target, RecordReader Reader)> all = [.. readers];

    /// <summary>Of the target named first.</summary>
    public RecordReader First => all[0].Reader;

    /// <summary>Of the target of this name.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public RecordReader Of(string target) => all.Single(r => r.Target == target).Reader;
}
