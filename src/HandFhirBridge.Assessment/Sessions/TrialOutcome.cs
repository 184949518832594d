namespace HandFhirBridge.Assessment.Sessions;

/// <summary>How one trial ended.</summary>
public enum TrialOutcome
{
    /// <summary>Finished; seconds are the result.</summary>
    Completed,

    /// <summary>Stopped when the cap in force ran out; the time is a bound (longer than the cap), never a plain value.</summary>
    StoppedAtCap,

    /// <summary>Tried, or judged impossible by the therapist; no time.</summary>
    Unable,

    /// <summary>The patient declined; no time.</summary>
    Declined,

    /// <summary>Left out by the therapist; a reason is required; no time.</summary>
    NotGiven,

    /// <summary>Given but not usable (dropped stopwatch, interrupted); a reason is required; no time counts.</summary>
    Void,
}
