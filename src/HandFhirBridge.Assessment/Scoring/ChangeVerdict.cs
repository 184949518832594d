namespace HandFhirBridge.Assessment.Scoring;

/// <summary>What a change says beside the measurement error.</summary>
public enum ChangeVerdict
{
    /// <summary>Not larger than the minimal detectable change: may be measurement error alone.</summary>
    WithinMeasurementError,

    /// <summary>Faster by more than the minimal detectable change.</summary>
    FasterBeyondMeasurementError,

    /// <summary>Slower by more than the minimal detectable change.</summary>
    SlowerBeyondMeasurementError,
}
