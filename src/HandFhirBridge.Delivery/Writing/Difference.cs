namespace HandFhirBridge.Delivery.Writing;

/// <summary>One element that a target keeps otherwise than it was sent.</summary>
/// <param name="Label">Which resource of the session, in a person's words.</param>
/// <param name="Path">Element, as a FHIRPath from the resource type.</param>
/// <param name="Kind">How it differs.</param>
/// <param name="Sent">What was sent, as JSON; null for an element with parts.</param>
/// <param name="Kept">What is kept, as JSON; null if nothing is.</param>
public sealed record Difference(string Label, string Path, DifferenceKind Kind, string? Sent, string? Kept)
{
    private const int LongestValue = 60;

    /// <summary>One line; may quote values of the session.</summary>
    public override string ToString() => Kind switch
    {
        DifferenceKind.Dropped => $"{Label} ({Path}): dropped",
        DifferenceKind.Rounded => $"{Label} ({Path}): {Sent} kept as {Kept}",
        _ => $"{Label} ({Path}): {Cut(Sent)} changed to {Cut(Kept)}",
    };

    private static string Cut(string? value) => value is { Length: > LongestValue } ? value[..LongestValue] + "…" : value ?? "nothing";
}
