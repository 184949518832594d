namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Which norm applies. Not the patient's gender identity nor administrative gender.</summary>
public enum SexForNorm
{
    /// <summary>Judged against the norm for women.</summary>
    Female,

    /// <summary>Judged against the norm for men.</summary>
    Male,

    /// <summary>Both norms are shown and none is judged.</summary>
    Unknown,
}
