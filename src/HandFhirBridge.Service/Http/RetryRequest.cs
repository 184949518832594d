namespace HandFhirBridge.Service.Http;

/// <summary>A person's decision to retry every session that matches.</summary>
/// <param name="Reason">Why, 1 to 1,000 characters; kept with each session.</param>
/// <param name="By">Who, 1 to 200 characters; kept with each session.</param>
/// <param name="Over">Time over which they fall due, such as <c>30m</c>, at most <c>7d</c>; null makes them due at once.</param>
/// <param name="Filter">Which; null for all that are held or failed.</param>
public sealed record RetryRequest(string? Reason, string? By, string? Over, RetryFilter? Filter);
