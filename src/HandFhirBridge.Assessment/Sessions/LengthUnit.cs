using System.Text.Json.Serialization;

namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Units in which set-ups are measured.</summary>
public enum LengthUnit
{
    /// <summary>International inch; UCUM <c>[in_i]</c>; written <c>in</c> in the session document.</summary>
    [JsonStringEnumMemberName("in")]
    Inch,

    /// <summary>Centimetre; UCUM <c>cm</c>; written <c>cm</c>.</summary>
    [JsonStringEnumMemberName("cm")]
    Centimetre,
}
