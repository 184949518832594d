namespace HandFhirBridge.Delivery.Targets;

/// <summary>How a target stands. Holds nothing of any session.</summary>
/// <param name="Availability">Whether it can be reached.</param>
/// <param name="LastContact">When it was asked last, UTC; null if it was not.</param>
/// <param name="Since">When the first of the failures in a row happened, UTC; null while it is not down.</param>
/// <param name="Because">The first of these failures in a few words; null while it is not down.</param>
public sealed record TargetStanding(TargetAvailability Availability, DateTimeOffset? LastContact, DateTimeOffset? Since, string? Because);
