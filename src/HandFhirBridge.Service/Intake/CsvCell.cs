namespace HandFhirBridge.Service.Intake;

/// <summary>What a column holds, which decides how its cells are written in the session document.</summary>
internal enum CsvCell
{
    /// <summary>Text as it stands.</summary>
    Text,

    /// <summary>A number; decimal comma allowed where the comma does not separate columns.</summary>
    Number,

    /// <summary>true or false, in any case: spreadsheets write TRUE.</summary>
    Flag,

    /// <summary>Words separated by <c>|</c>.</summary>
    Words,
}
