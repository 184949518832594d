using ADRaffy.ENSNormalize;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>
/// When two family names agree: equal after Unicode normalization form C (UAX #15), runs of white space made one space and cut
/// at the ends, upper and lower case alike. Nothing else is forgiven: no accents dropped, no hyphens, no similar spellings.
/// </summary>
public static class FamilyName
{
    // The framework does not normalize beyond ASCII where it runs without ICU, as this service does.
    private static readonly NF Normalization = ENSNormalize.NF;

    /// <summary>True if they agree; an empty name agrees with none.</summary>
    public static bool Agrees(string? one, string? other)
    {
        var (a, b) = (Fold(one), Fold(other));
        return a.Length > 0 && string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
    }

    private static string Fold(string? name) =>
        string.Join(' ', Normalization.NFC(name ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
