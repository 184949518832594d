namespace HandFhirBridge.Outcomes.Statistics;

/// <summary>One time at which tasks were finished.</summary>
/// <param name="Seconds">The time.</param>
/// <param name="AtRisk">Trials that had run at least so long.</param>
/// <param name="Finished">Trials finished at it.</param>
/// <param name="Survival">Estimated share not finished after it, 0 to 1.</param>
/// <param name="StandardError">Of that share, after Greenwood; not a number once all have finished.</param>
public readonly record struct SurvivalStep(double Seconds, int AtRisk, int Finished, double Survival, double StandardError);
