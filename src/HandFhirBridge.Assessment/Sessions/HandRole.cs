namespace HandFhirBridge.Assessment.Sessions;

/// <summary>Part a hand plays; published norms of the seven-task test are by role, not by side.</summary>
public enum HandRole
{
    /// <summary>The hand that is not dominant. It is tested first.</summary>
    NonDominant,

    /// <summary>The dominant hand.</summary>
    Dominant,
}
