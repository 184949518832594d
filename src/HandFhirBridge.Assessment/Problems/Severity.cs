namespace HandFhirBridge.Assessment.Problems;

/// <summary>How much a <see cref="Problem"/> stands in the way. The order is from light to grave.</summary>
public enum Severity
{
    /// <summary>Worth knowing; nothing is withheld.</summary>
    Information,

    /// <summary>Accepted as it stands, but a person should look.</summary>
    Warning,

    /// <summary>Nothing of the session is queued until it is corrected.</summary>
    Error,
}
