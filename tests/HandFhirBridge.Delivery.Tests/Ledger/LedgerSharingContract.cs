using System.Collections.Concurrent;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to where several have it open: nobody sends what another is sending.</summary>
public abstract class LedgerSharingContract : LedgerOperationContract
{
    private static readonly AttemptResult Delivered = new(AttemptStatus.Delivered, null);

    /// <summary>Opens the same store once more.</summary>
    protected abstract SqlLedger OpenAnother();

    [Fact]
    public async Task Accept_SameSessionsThroughManyOpenings_EachIsAcceptedOnce()
    {
        var sessions = Enumerable.Range(0, 20).Select(n => Sessions.Session($"S-{n}", patient: $"P-{n}")).ToList();
        var backwards = sessions.AsEnumerable().Reverse().ToList();

        // In both orders at once: two batches must not wait for each other in a circle.
        var results = await OnEachAsync(4, (ledger, n) => ledger.AcceptAsync(n % 2 == 0 ? sessions : backwards, Cancellation));

        results.SelectMany(r => r).Count(r => r.Outcome == AcceptOutcome.Accepted).ShouldBe(20);
        results.SelectMany(r => r).Count(r => r.Outcome == AcceptOutcome.AlreadyAccepted).ShouldBe(60);
    }

    [Fact]
    public async Task Lease_ManyOwnersThroughManyOpenings_NoSessionTwiceAndNoPatientTwiceAtATime()
    {
        var sessions = Enumerable.Range(0, 60).Select(n => Sessions.Session($"S-{n}", patient: $"P-{n % 7}")).ToList();
        await Ledger.AcceptAsync(sessions, Cancellation);
        var underWay = new ConcurrentDictionary<string, SessionKey>();
        var sent = new ConcurrentQueue<SessionKey>();

        await OnEachAsync(6, async (ledger, n) =>
        {
            // Until all are sent: while others have every patient, there may be nothing for this one.
            while (sent.Count < sessions.Count)
            {
                if (await ledger.LeaseAsync($"owner-{n}") is not { } lease)
                {
                    await Task.Yield();
                    continue;
                }

                underWay.TryAdd(lease.Payload.Patient.Identifier.Value, lease.Entry.Key).ShouldBeTrue("two sessions of one patient under way");
                sent.Enqueue(lease.Entry.Key);
                await Task.Yield();
                underWay.TryRemove(lease.Payload.Patient.Identifier.Value, out _).ShouldBeTrue();
                (await ledger.CompleteAsync(lease, Delivered)).ShouldBeTrue();
            }

            return true;
        });

        sent.Select(k => k.SessionId).ShouldBe(sessions.Select(s => s.Key.SessionId), ignoreOrder: true);
        (await Ledger.CountAsync(Cancellation)).ByState[DeliveryState.Delivered].ShouldBe(60);
    }

    [Fact]
    public async Task Lease_ManyRevisionsAndOwners_AreSentInTheirOrder()
    {
        var revisions = Enumerable.Range(1, 8).Select(r => Sessions.Session(revision: r, content: $$"""{"r":{{r}}}""")).ToList();
        await Ledger.AcceptAsync(revisions, Cancellation);
        var sent = new ConcurrentQueue<int>();

        await OnEachAsync(4, async (ledger, n) =>
        {
            while (sent.Count < revisions.Count)
            {
                if (await ledger.LeaseAsync($"owner-{n}") is { } lease)
                {
                    sent.Enqueue(lease.Entry.Key.Revision);
                    (await ledger.CompleteAsync(lease, Delivered)).ShouldBeTrue();
                }

                await Task.Yield();
            }

            return true;
        });

        sent.ShouldBe(Enumerable.Range(1, 8));
    }

    [Fact]
    public async Task Lease_OwnerGoneBetweenLeaseAndOutcome_OneOtherTakesOverInDoubt()
    {
        await Ledger.AcceptAsync(Enumerable.Range(0, 5).Select(n => Sessions.Session($"S-{n}", patient: $"P-{n}")).ToList(), Cancellation);
        var gone = new List<LedgerLease>();
        while (await Ledger.LeaseAsync("gone") is { } lease)
        {
            gone.Add(lease);
        }

        (await OnEachAsync(4, (ledger, n) => ledger.LeaseAsync($"owner-{n}"))).ShouldAllBe(lease => lease == null);
        Clock.Advance(TimeSpan.FromMinutes(5));
        var taken = await OnEachAsync(4, async (ledger, n) =>
        {
            var leases = new List<LedgerLease>();
            while (await ledger.LeaseAsync($"owner-{n}") is { } lease)
            {
                leases.Add(lease);
            }

            return leases;
        });

        gone.Count.ShouldBe(5);
        taken.SelectMany(l => l).Select(l => l.Entry.Key).ShouldBe(gone.Select(l => l.Entry.Key), ignoreOrder: true);
        taken.SelectMany(l => l).ShouldAllBe(l => l.InDoubt && l.Entry.Attempts == 2);
        (await Ledger.CompleteAsync(gone[0], Delivered)).ShouldBeFalse();
    }

    private async Task<T[]> OnEachAsync<T>(int openings, Func<SqlLedger, int, Task<T>> work) =>
        await Task.WhenAll(Enumerable.Range(0, openings).Select(n => Task.Run(async () =>
        {
            using var ledger = OpenAnother();
            return await work(ledger, n);
        })));
}
