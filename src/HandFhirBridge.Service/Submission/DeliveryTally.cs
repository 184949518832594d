using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Service.Submission;

/// <summary>Where a number of sessions stand.</summary>
/// <param name="Delivered">The target keeps them.</param>
/// <param name="Held">Wait for a person.</param>
/// <param name="Failed">Refused by the target.</param>
/// <param name="Open">Still to be sent.</param>
/// <param name="OpenAndTried">Of those, tried without success and waiting for the next attempt.</param>
public sealed record DeliveryTally(int Delivered, int Held, int Failed, int Open, int OpenAndTried)
{
    /// <summary>Held or failed.</summary>
    public int Waiting => Held + Failed;

    /// <summary>The tally of <paramref name="keys"/>.</summary>
    /// <param name="ledger">Where they stand.</param>
    /// <param name="keys">Which; those that are delivered are taken out, so that nobody asks for them again.</param>
    /// <param name="delivered">How many were taken out before.</param>
    /// <param name="cancellation">Gives up waiting for the ledger.</param>
    public static async Task<DeliveryTally> OfAsync(ILedger ledger, HashSet<SessionKey> keys, int delivered, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ledger);
        ArgumentNullException.ThrowIfNull(keys);
        var tally = new DeliveryTally(delivered, 0, 0, 0, 0);
        foreach (var key in keys)
        {
            tally = await ledger.FindAsync(key, cancellation) switch
            {
                { State: DeliveryState.Delivered or DeliveryState.Superseded } => tally.Without(keys, key),
                { State: DeliveryState.Held } => tally with { Held = tally.Held + 1 },
                { State: DeliveryState.Failed } => tally with { Failed = tally.Failed + 1 },
                { State: DeliveryState.Accepted, Attempts: > 0 } => tally with { Open = tally.Open + 1, OpenAndTried = tally.OpenAndTried + 1 },
                _ => tally with { Open = tally.Open + 1 },
            };
        }

        return tally;
    }

    // A set may be taken from while it is gone through.
    private DeliveryTally Without(HashSet<SessionKey> keys, SessionKey key)
    {
        keys.Remove(key);
        return this with { Delivered = Delivered + 1 };
    }

    /// <inheritdoc/>
    public override string ToString() =>
        $"{Delivered} delivered, {Held} held, {Failed} failed{(Open > 0 ? $", {Open} still to be sent (the target did not take them; serve keeps trying)" : "")}."
        + (Waiting > 0 ? " See why with: ledger list." : "");
}
