namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Why a change carries no verdict.</summary>
public enum NoVerdict
{
    /// <summary>One of the two has no plain time: not completed, stopped at the cap, or an incomplete total. A bound has no difference.</summary>
    NoPlainTime,

    /// <summary>The table was laid differently (template board, replaced items): the times are of two protocols.</summary>
    SetupDiffered,

    /// <summary>No measurement error is set for this instrument, task or total and hand role.</summary>
    NoMeasurementError,

    /// <summary>Several are set that fit equally well, from different populations: which one applies is not for this software to choose.</summary>
    SeveralMeasurementErrors,
}
