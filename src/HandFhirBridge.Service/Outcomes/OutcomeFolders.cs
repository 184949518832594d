using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Outcomes;

/// <summary>Where outcomes lie below the data directory: what was gathered, and the rows made of it.</summary>
public static class OutcomeFolders
{
    /// <summary>The gathered set, in <c>outcomes/gathered</c>.</summary>
    public static GatheredSet Gathered(BridgeSettings settings) => new(In(settings, "gathered"));

    /// <summary>The rows, in <c>outcomes/rows</c>.</summary>
    public static RowSet Rows(BridgeSettings settings) => new(In(settings, "rows"));

    private static string In(BridgeSettings settings, string name)
    {
        ArgumentNullException.ThrowIfNull(settings);
        return Path.Combine(settings.DataDirectory, "outcomes", name);
    }
}
