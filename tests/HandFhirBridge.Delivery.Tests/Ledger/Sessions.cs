using System.Text;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>Invented sessions for the ledger, which does not look into what it keeps.</summary>
internal static class Sessions
{
    public static AcceptedSession Session(string id = "S-1", string content = "{}", int revision = 1, string patient = "P-1", string target = "default") => new(
        new("north-clinic", id, revision),
        Encoding.UTF8.GetBytes(content),
        Encoding.UTF8.GetBytes("""{"resourceType":"Bundle"}"""),
        new(new("https://north-clinic.example/patients", patient), "Lindqvist", new(1961, 4, 12)),
        target);

    public static async Task<AcceptResult> AcceptAsync(this ILedger ledger, AcceptedSession session) =>
        (await ledger.AcceptAsync([session], TestContext.Current.CancellationToken)).ShouldHaveSingleItem();

    public static Task<LedgerLease?> LeaseAsync(this ILedger ledger, string owner = "worker-1", params string[] paused) =>
        ledger.LeaseAsync(owner, TimeSpan.FromMinutes(5), paused, TestContext.Current.CancellationToken);

    public static async Task<DeliveryState> StateAsync(this ILedger ledger, AcceptedSession session) =>
        (await ledger.FindAsync(session.Key, TestContext.Current.CancellationToken)).ShouldNotBeNull().State;

    public static Task<bool> CompleteAsync(this ILedger ledger, LedgerLease lease, AttemptResult result) =>
        ledger.CompleteAsync(lease, result, TestContext.Current.CancellationToken);

    /// <summary>By somebody, for some reason, where neither matters.</summary>
    public static Task<bool> RetryAsync(this ILedger ledger, SessionKey key) => ledger.RetryAsync(key, Decision("Mended."), TestContext.Current.CancellationToken);

    public static PersonDecision Decision(string reason, string? caller = null) =>
        new("R. Okafor", reason, new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero)) { Caller = caller };
}
