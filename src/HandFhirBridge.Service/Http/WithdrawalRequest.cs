namespace HandFhirBridge.Service.Http;

/// <summary>A person's decision to withdraw a session.</summary>
/// <param name="Reason">Why, 1 to 1,000 characters; kept.</param>
/// <param name="By">Who, 1 to 200 characters; kept.</param>
public sealed record WithdrawalRequest(string? Reason, string? By);
