using System.Collections.Frozen;
using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Operations;

/// <summary>What whoever looks after the ledger is shown, on the page, over HTTP and on the command line.</summary>
/// <param name="ledger">The ledger.</param>
/// <param name="clock">Gives the time.</param>
public sealed class LedgerDesk(ILedger ledger, TimeProvider clock)
{
    private static readonly FrozenDictionary<string, ProblemKind> Kinds =
        DeliveryProblems.All.Concat(IdentityProblems.All).Concat(LedgerProblems.All).ToFrozenDictionary(kind => kind.Code, StringComparer.Ordinal);

    /// <summary>What to do about a code; null for none and for one that is not known.</summary>
    public static string? RemedyOf(string? code) => KindOf(code)?.Remedy;

    /// <summary>Entries that match, with groups and counts.</summary>
    public async Task<LedgerPage> ListAsync(LedgerQuery query, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(query);
        var counts = await ledger.CountAsync(cancellation);
        var groups = await ledger.GroupAsync(new() { Site = query.Site, Target = query.Target }, cancellation);
        var entries = await ledger.ListAsync(query with { Take = query.Take + 1 }, cancellation);
        return new(
            clock.GetUtcNow(),
            counts.OldestUnsent,
            counts.ByState.ToImmutableSortedDictionary(pair => Words.Of(pair.Key), pair => pair.Value, StringComparer.Ordinal),
            Merge(groups),
            [.. entries.Take(query.Take).Select(LedgerRow.Of)],
            query.Skip,
            query.Take,
            entries.Length > query.Take);
    }

    /// <summary>A revision of a session with its history; null if there is none.</summary>
    /// <param name="site">Clinic.</param>
    /// <param name="sessionId">The client's id.</param>
    /// <param name="revision">Revision; null for the latest.</param>
    /// <param name="cancellation">Gives up waiting for the ledger.</param>
    public async Task<EntryHistory?> FindAsync(string site, string sessionId, int? revision, CancellationToken cancellation)
    {
        var revisions = await ledger.ReadRevisionsAsync(site, sessionId, cancellation);
        if (revisions.LastOrDefault(entry => revision is null || entry.Key.Revision == revision) is not { } entry)
        {
            return null;
        }

        var mask = new PatientMask(await PatientOfAsync(entry.Key, cancellation));
        var attempts = await ledger.ReadAttemptsAsync(entry.Key, cancellation);
        var decisions = await ledger.ReadDecisionsAsync(entry.Key, cancellation);
        return new(
            LedgerRow.Of(entry) with { Reason = mask.Hide(entry.Reason) },
            RemedyOf(entry.ProblemCode),
            entry.PatientId,
            [.. revisions.Select(LedgerRow.Of)],
            [.. attempts.Select(attempt => attempt with { Answer = mask.Hide(attempt.Answer) })],
            [.. decisions.Select(decision => decision with { Reason = mask.Hide(decision.Reason)! })],
            entry == revisions[^1] ? Actions(entry) : []);
    }

    private static ImmutableArray<string> Actions(LedgerEntry entry) => entry.State switch
    {
        // A withdrawal is not withdrawn.
        DeliveryState.Held => entry.IsWithdrawal ? ["retry", "resolve"] : ["retry", "resolve", "withdraw"],
        DeliveryState.Failed => entry.IsWithdrawal ? ["retry"] : ["retry", "withdraw"],
        DeliveryState.Accepted => entry.IsWithdrawal ? ["hold"] : ["hold", "withdraw"],
        DeliveryState.Sending or DeliveryState.Delivered when !entry.IsWithdrawal => ["withdraw"],
        _ => [],
    };

    private static ImmutableArray<ProblemGroup> Merge(ImmutableArray<LedgerGroup> groups) =>
    [
        .. groups.GroupBy(group => (group.ProblemCode, group.State))
            .Select(alike => new ProblemGroup(
                alike.Key.ProblemCode,
                KindOf(alike.Key.ProblemCode)?.Title,
                RemedyOf(alike.Key.ProblemCode),
                alike.Key.State,
                alike.Sum(group => group.Entries),
                alike.Min(group => group.Oldest),
                alike.Key.ProblemCode is { } code && BulkRetry.OneByOne.Contains(code, StringComparer.Ordinal)))
            .OrderBy(group => group.Oldest).ThenBy(group => group.Code, StringComparer.Ordinal),
    ];

    private static ProblemKind? KindOf(string? code) => code is null ? null : Kinds.GetValueOrDefault(code);

    private async Task<Assessment.Sessions.PatientIdentity?> PatientOfAsync(SessionKey key, CancellationToken cancellation)
    {
        try
        {
            return (await ledger.ReadPayloadAsync(key, cancellation))?.Patient;
        }
        catch (LedgerException failure) when (failure.Problem.Kind == LedgerProblems.Sealed)
        {
            // The rest of the entry is what a person needs to see why.
            return null;
        }
    }
}
