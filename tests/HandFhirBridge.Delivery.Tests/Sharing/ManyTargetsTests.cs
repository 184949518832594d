using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Sharing;

/// <summary>Several targets from one ledger: each has its own limits and its own circuit.</summary>
public sealed class ManyTargetsTests(PostgresCluster cluster) : IDisposable
{
    private readonly ScriptedTarget north = new();
    private readonly ScriptedTarget south = new();
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Send_SessionsOfTwoTargets_EachGoesToItsOwnAlone()
    {
        using var instance = await StartAsync();

        await instance.SendAsync(Cancellation);

        (await instance.Ledger.CountAsync(Cancellation)).ByState[DeliveryState.Delivered].ShouldBe(2);
        north.Transactions.ShouldHaveSingleItem().ToJsonString().ShouldContain("north-clinic/N-1");
        south.Transactions.ShouldHaveSingleItem().ToJsonString().ShouldContain("north-clinic/S-1");
    }

    [Fact]
    public async Task Send_OneTargetIsDown_TheOtherIsServedAndTheCircuitIsItsOwn()
    {
        north.OnPatientSearch = (_, _) => ScriptedTarget.Answer(503);
        using var instance = await StartAsync(further: 8);
        for (var attempts = 0; attempts < 20; attempts++)
        {
            await instance.SendOnceAsync(Cancellation);
        }

        north.PatientSearches.ShouldBe(5, "after five failures in a row it is left alone");
        south.Transactions.Count.ShouldBe(1);
        (await instance.Ledger.ListAsync(new() { Target = "south" }, Cancellation)).ShouldHaveSingleItem().State.ShouldBe(DeliveryState.Delivered);
    }

    [Fact]
    public async Task Send_TargetWithARate_IsServedNoFasterAndKeepsNobodyBack()
    {
        using var instance = await StartAsync(further: 3, perMinute: 6);
        while (await instance.SendOnceAsync(Cancellation))
        {
        }

        (north.Transactions.Count, south.Transactions.Count).ShouldBe((1, 1));
        clock.Advance(TimeSpan.FromSeconds(9.9));
        (await instance.SendOnceAsync(Cancellation)).ShouldBeFalse();
        clock.Advance(TimeSpan.FromSeconds(0.1));
        (await instance.SendOnceAsync(Cancellation)).ShouldBeTrue();
        north.Transactions.Count.ShouldBe(2);
    }

    public void Dispose()
    {
        north.Dispose();
        south.Dispose();
    }

    /// <summary>One session of each target, and some further ones of the north.</summary>
    private async Task<Instance> StartAsync(int further = 0, int? perMinute = null)
    {
        var database = await cluster.CreateDatabaseAsync(Cancellation);
        north.Patients.AddRange(Enumerable.Range(2, further).Select(n => ScriptedTarget.Chart(chart =>
        {
            chart["id"] = $"chart-{n}";
            chart["identifier"]![0]!["value"] = $"P-{n:0000}";
        })));
        south.Patients[0]["identifier"]![0]!["value"] = "P-0100";
        var instance = new Instance(
            database,
            [
                new() { Name = "north", BaseUrl = north.Base, ConnectRetries = 0, SessionsPerMinute = perMinute },
                new() { Name = "south", BaseUrl = south.Base, ConnectRetries = 0 },
            ],
            clock);
        await instance.Ledger.AcceptAsync(
            [
                MappedSessions.Session("N-1") with { Target = "north" },
                .. Enumerable.Range(2, further).Select(n => MappedSessions.Session($"N-{n}", patient: $"P-{n:0000}") with { Target = "north" }),
                MappedSessions.Session("S-1", patient: "P-0100") with { Target = "south" },
            ],
            Cancellation);
        return instance;
    }
}
