namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Laterality quotient of a hand preference inventory (Oldfield RC, Neuropsychologia 1971;9:97-113).</summary>
public static class LateralityQuotient
{
    /// <summary>100 · (right − left) / (right + left), from −100 (all left) to +100 (all right); null if both are 0.</summary>
    /// <param name="right">Marks for the right hand over all items, 0 or more.</param>
    /// <param name="left">Marks for the left hand over all items, 0 or more.</param>
    public static decimal? Of(int right, int left)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(right);
        ArgumentOutOfRangeException.ThrowIfNegative(left);
        return right + left == 0 ? null : 100m * (right - left) / (right + left);
    }
}
