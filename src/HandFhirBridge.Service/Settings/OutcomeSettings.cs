using HandFhirBridge.Outcomes.Summaries;

namespace HandFhirBridge.Service.Settings;

/// <summary>What leaves the house about groups.</summary>
public sealed class OutcomeSettings
{
    /// <summary>Fewest persons of a group that is shown. Default 5.</summary>
    public int SmallestGroup { get; set; } = SummaryQuestion.DefaultSmallestGroup;

    /// <summary>Key file that pseudonyms of exports are made with. Null: each export has pseudonyms of its own.</summary>
    public string? KeyFile { get; set; }
}
