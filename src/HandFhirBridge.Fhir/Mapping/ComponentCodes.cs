namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Codes of components.</summary>
internal static class ComponentCodes
{
    public const string HandRole = "hand-role";
    public const string ZScore = "z-score";
    public const string PercentOfNorm = "percent-of-norm";
    public const string Departure = "departure";
    public const string LateralityQuotient = "laterality-quotient";
    public const string TestedAsDominant = "tested-as-dominant";
}
