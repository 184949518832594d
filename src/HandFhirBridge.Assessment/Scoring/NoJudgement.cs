namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Why a trial carries no score.</summary>
public enum NoJudgement
{
    /// <summary>It has no plain time (not completed).</summary>
    NoTime,

    /// <summary>The sex for the norm is unknown; both norms are shown.</summary>
    SexUnknown,

    /// <summary>No usable norm of the instrument, whatever its task, hand role or sex, covers the patient's age.</summary>
    AgeOutsideNorms,

    /// <summary>No usable norm set has a cell for this task, hand role, sex and age, though one covers the age for something else.</summary>
    NoNorm,
}
