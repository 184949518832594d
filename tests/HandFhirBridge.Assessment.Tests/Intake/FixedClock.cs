namespace HandFhirBridge.Assessment.Tests.Intake;

/// <summary>Always the first of November 2026, noon UTC: later than every example.</summary>
internal sealed class FixedClock : TimeProvider
{
    public override DateTimeOffset GetUtcNow() => new(2026, 11, 1, 12, 0, 0, TimeSpan.Zero);
}
