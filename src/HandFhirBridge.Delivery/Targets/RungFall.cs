namespace HandFhirBridge.Delivery.Targets;

/// <summary>A fall from one rung to a lower one.</summary>
/// <param name="From">Rung that was refused.</param>
/// <param name="To">Rung that held.</param>
/// <param name="At">When, UTC.</param>
/// <param name="Because">The answer that caused it: status and issue codes, nothing of any session.</param>
public sealed record RungFall(Rung From, Rung To, DateTimeOffset At, string Because);
