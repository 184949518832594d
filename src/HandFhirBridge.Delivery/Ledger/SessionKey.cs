namespace HandFhirBridge.Delivery.Ledger;

/// <summary>Names one revision of one session. Unlike <c>Session.Key</c> it tells revisions apart.</summary>
/// <param name="Site">Id of the clinic.</param>
/// <param name="SessionId">The client's id, unique per site.</param>
/// <param name="Revision">1 for the first version, n+1 for a correction.</param>
public sealed record SessionKey(string Site, string SessionId, int Revision)
{
    /// <summary><c>site/sessionId</c>, with <c> revision n</c> for n above 1. Holds no patient data.</summary>
    public override string ToString() => $"{Site}/{SessionId}" + (Revision > 1 ? $" revision {Revision}" : "");
}
