namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Codes of <see cref="CodeSystems.Component"/>: what a component of a trial or of the handedness says.</summary>
public static class ComponentCodes
{
    /// <summary>Dominant or non-dominant.</summary>
    public const string HandRole = "hand-role";

    /// <summary>(seconds − norm mean) / norm SD, UCUM <c>{score}</c>, 2 decimals; positive is slower.</summary>
    public const string ZScore = "z-score";

    /// <summary>100 × seconds / norm mean, UCUM <c>%</c>, 1 decimal.</summary>
    public const string PercentOfNorm = "percent-of-norm";

    /// <summary>What differed from the standard; any number.</summary>
    public const string Departure = "departure";

    /// <summary>−100 (all left) to +100 (all right), UCUM <c>{score}</c>.</summary>
    public const string LateralityQuotient = "laterality-quotient";

    /// <summary>The hand whose role was dominant.</summary>
    public const string TestedAsDominant = "tested-as-dominant";
}
