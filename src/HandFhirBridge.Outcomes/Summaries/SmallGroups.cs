namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>Holds back groups so small that a figure could be told to be somebody's.</summary>
internal static class SmallGroups
{
    /// <summary>
    /// Groups of at least <paramref name="smallest"/> persons. If a single group is held back it could be worked out from a total that
    /// is known elsewhere, so the next smallest goes with it (complementary suppression).
    /// </summary>
    public static List<SummaryGroup> Without(IReadOnlyCollection<SummaryGroup> groups, int smallest)
    {
        var shown = groups.Where(g => g.Persons >= smallest).ToList();
        if (groups.Count - shown.Count == 1 && shown.Count > 0)
        {
            shown.Remove(shown.MinBy(g => g.Persons)!);
        }

        return shown;
    }
}
