namespace HandFhirBridge.Service.Settings;

/// <summary>Form of the log.</summary>
public enum LogForm
{
    /// <summary>One line an entry, for people.</summary>
    Text,

    /// <summary>One JSON object an entry, for programs.</summary>
    Json,
}
