using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Charts;

/// <summary>Decides where times before and after are not to be compared by eye.</summary>
internal static class CourseBreaks
{
    /// <summary>What changed in the way of testing; null if nothing that changes times.</summary>
    public static string? Protocol(Session earlier, Session later)
    {
        if (earlier.Instrument != later.Instrument)
        {
            return $"test version changed from {earlier.Instrument.Version} to {later.Instrument.Version}";
        }

        if (earlier.Setup.TemplateBoard != later.Setup.TemplateBoard)
        {
            return later.Setup.TemplateBoard ? "template board used from here on" : "no template board from here on";
        }

        return earlier.Setup.ItemsReplaced.ToHashSet().SetEquals(later.Setup.ItemsReplaced) ? null : "items replaced on the table changed";
    }

    /// <summary>What changed in what a time is held against; null if nothing. A session without a norm changes nothing.</summary>
    /// <param name="earlier">Sets of the last point that had any.</param>
    /// <param name="later">Sets of this point.</param>
    public static string? Norms(IReadOnlyList<string> earlier, IReadOnlyList<string> later) =>
        earlier.Count == 0 || later.Count == 0 || earlier.ToHashSet().SetEquals(later)
            ? null
            : $"norm set changed from {string.Join(" and ", earlier)} to {string.Join(" and ", later)}";

    /// <summary>The norm is by role, and so the band is another one.</summary>
    public static string? Role(HandRole earlier, HandRole later) =>
        earlier == later ? null : $"hand now tested as {WireName.Of(later)}";
}
