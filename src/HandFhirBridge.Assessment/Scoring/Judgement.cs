namespace HandFhirBridge.Assessment.Scoring;

/// <summary>What a time says beside its norm.</summary>
public enum Judgement
{
    /// <summary>Not slower than the norm mean by more than 2 SD.</summary>
    WithinNorm,

    /// <summary>Slower than the norm mean by more than 2 SD.</summary>
    Slow,
}
