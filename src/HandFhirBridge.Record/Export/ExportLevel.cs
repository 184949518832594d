namespace HandFhirBridge.Record.Export;

/// <summary>Whose data an export gives (FHIR Bulk Data Access 2.0, "Bulk Data Kick-off Request").</summary>
internal enum ExportLevel
{
    /// <summary>Everything there is.</summary>
    System,

    /// <summary>The records of all patients.</summary>
    Patients,

    /// <summary>The records of a group's members.</summary>
    Group,
}
