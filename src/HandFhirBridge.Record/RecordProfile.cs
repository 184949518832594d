namespace HandFhirBridge.Record;

/// <summary>A profile that <c>$validate</c> can check.</summary>
/// <param name="Url">Its canonical url, without version.</param>
/// <param name="Version">Its version.</param>
/// <param name="Type">Type of the resources it is of.</param>
public sealed record RecordProfile(string Url, string Version, string Type)
{
    /// <summary>Base R4 of a type, which every resource is checked against.</summary>
    /// <param name="type">Resource type.</param>
    internal static RecordProfile Base(string type) => new($"http://hl7.org/fhir/StructureDefinition/{type}", "4.0.1", type);

    /// <summary>True if a canonical reference means this profile: its url, with its version or without any.</summary>
    /// <param name="canonical">As it stands in <c>meta.profile</c>.</param>
    public bool IsMeantBy(string canonical) => canonical == Url || canonical == $"{Url}|{Version}";
}
