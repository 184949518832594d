namespace HandFhirBridge.Service.Reports;

/// <summary>How a report stands.</summary>
public enum ReportStatus
{
    /// <summary>The first version, valid.</summary>
    Final,

    /// <summary>A later version, valid; earlier ones are not.</summary>
    Corrected,

    /// <summary>Entered in error; nothing of it is valid.</summary>
    Withdrawn,
}
