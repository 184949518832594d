namespace HandFhirBridge.Delivery.Identity;

/// <summary>The chart that a person chose for a session, and why. It is looked up anew at every sending.</summary>
/// <param name="PatientId">Logical id at the target.</param>
/// <param name="Reason">Why it is the right one, in the person's words.</param>
/// <param name="By">Who chose.</param>
/// <param name="At">When, UTC.</param>
public sealed record ChartChoice(string PatientId, string Reason, string By, DateTimeOffset At);
