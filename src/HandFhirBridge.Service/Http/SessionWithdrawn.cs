using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Http;

/// <summary>That a session was withdrawn, as the API and the command line tell it.</summary>
/// <param name="Statement">In words, with whether the record says so yet.</param>
/// <param name="Reason">Why, in the words of who withdrew it.</param>
/// <param name="By">Who withdrew it.</param>
/// <param name="At">When.</param>
public sealed record SessionWithdrawn(string Statement, string Reason, string By, DateTimeOffset At)
{
    /// <summary>Null if the entry is no withdrawal.</summary>
    public static SessionWithdrawn? Of(LedgerEntry entry, IEnumerable<LedgerDecision> decisions)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return entry.IsWithdrawal && decisions.FirstOrDefault(d => d.Action == LedgerDecision.Withdraw) is { } decision
            ? new(Say(entry.State), decision.Reason, decision.By, decision.At)
            : null;
    }

    private static string Say(DeliveryState state) => state switch
    {
        DeliveryState.Delivered => "Withdrawn: the record says so. The results must not be used.",
        DeliveryState.Superseded => "Withdrawn before anything was written to a chart; nothing is sent.",
        _ => "Withdrawn, but the record may not say so yet. The results must not be used.",
    };
}
