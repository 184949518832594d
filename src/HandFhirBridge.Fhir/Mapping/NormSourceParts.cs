namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Names of the parts of <see cref="Extensions.NormSource"/>.</summary>
internal static class NormSourceParts
{
    public const string NormSet = "normSet";
    public const string Version = "version";
    public const string Source = "source";
    public const string Evidence = "evidence";
    public const string DemonstrationOnly = "demonstrationOnly";
    public const string Mean = "mean";
    public const string StandardDeviation = "standardDeviation";
    public const string SampleSize = "sampleSize";
    public const string Note = "note";
}
