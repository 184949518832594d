namespace HandFhirBridge.Service.Http;

/// <summary>A person's decision about one session.</summary>
/// <param name="Reason">Why, 1 to 1,000 characters; kept.</param>
/// <param name="By">Who, 1 to 200 characters; kept.</param>
/// <param name="Revision">Revision that was looked at; refused if it is no longer the latest. Null decides about the latest.</param>
/// <param name="PatientId">Id of the chart that was chosen; only and always to resolve.</param>
public sealed record DecisionRequest(string? Reason, string? By, int? Revision, string? PatientId);
