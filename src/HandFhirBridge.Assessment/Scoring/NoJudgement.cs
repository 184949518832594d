namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Why a trial carries no score.</summary>
public enum NoJudgement
{
    /// <summary>It has no plain time (not completed).</summary>
    NoTime,

    /// <summary>The sex for the norm is unknown; both norms are shown.</summary>
    SexUnknown,

    /// <summary>The patient's age is outside every usable norm.</summary>
    AgeOutsideNorms,

    /// <summary>No usable norm set has a cell for this task, hand role and sex.</summary>
    NoNorm,
}
