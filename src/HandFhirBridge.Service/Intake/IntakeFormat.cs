namespace HandFhirBridge.Service.Intake;

/// <summary>In what form a session was handed in.</summary>
public enum IntakeFormat
{
    /// <summary>One session document.</summary>
    Json,

    /// <summary>One session document a line.</summary>
    Ndjson,

    /// <summary>One row a trial.</summary>
    Csv,
}
