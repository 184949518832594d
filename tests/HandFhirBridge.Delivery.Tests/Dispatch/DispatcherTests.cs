using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class DispatcherTests : TargetTests
{
    private readonly string folder = Directory.CreateTempSubdirectory("dispatcher-").FullName;

    [Fact]
    public async Task Stop_WithAnAttemptUnderWay_FinishesIt()
    {
        var arrived = new TaskCompletionSource();
        using var release = new ManualResetEventSlim();
        Target.OnTransaction = (_, usual) =>
        {
            arrived.SetResult();
            release.Wait(TimeSpan.FromSeconds(30));
            return usual();
        };
        await Bridge.Dispatcher.StartAsync(Cancellation);
        await Bridge.Ledger.AcceptAsync([Session], Cancellation);
        await arrived.Task.WaitAsync(TimeSpan.FromSeconds(30), Cancellation);

        var stop = Bridge.Dispatcher.StopAsync(Cancellation);
        stop.IsCompleted.ShouldBeFalse();
        release.Set();
        await stop;

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Start_AfterAKill_TakesUpWhatWasBeingSent()
    {
        await Bridge.Ledger.AcceptAsync([Session], Cancellation);
        await Bridge.Ledger.LeaseAsync("killed", TimeSpan.FromHours(1), [], Cancellation);
        var arrived = new TaskCompletionSource();
        Target.OnTransaction = (_, usual) =>
        {
            arrived.SetResult();
            return usual();
        };

        await Bridge.Dispatcher.StartAsync(Cancellation);
        // The dead process's last write may still be under way at the server: it is not looked for before the wait is over.
        while ((await Bridge.EntryAsync(Session)) is { State: not DeliveryState.Accepted, Attempts: 1 })
        {
            await Task.Yield();
        }

        Bridge.Clock.Advance(TimeSpan.FromSeconds(20));
        Target.PatientSearches.ShouldBe(0);
        while ((await Bridge.EntryAsync(Session)).Attempts == 1)
        {
            Bridge.Clock.Advance(TimeSpan.FromSeconds(1));
            await Task.Yield();
        }

        await arrived.Task.WaitAsync(TimeSpan.FromSeconds(30), Cancellation);
        await Bridge.Dispatcher.StopAsync(Cancellation);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        (await Bridge.Ledger.ReadAttemptsAsync(Session.Key, Cancellation)).Select(a => a.Status).ShouldBe([AttemptStatus.Interrupted, AttemptStatus.Delivered]);
    }

    [Fact]
    public async Task AddDelivery_InAHost_DeliversAndLogsNoPatientData()
    {
        var logged = new LogCollector();
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders().AddProvider(logged).SetMinimumLevel(LogLevel.Trace);
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddDelivery(options =>
        {
            options.LedgerPath = Path.Combine(folder, "ledger.db");
            options.Targets.Add(new() { BaseUrl = Target.Base });
        });
        await using var host = builder.Build();
        await host.StartAsync(Cancellation);

        var ledger = host.Services.GetRequiredService<ILedger>();
        await ledger.AcceptAsync([Session], Cancellation);
        await logged.Seen("Delivered").WaitAsync(TimeSpan.FromSeconds(60), Cancellation);
        await host.StopAsync(Cancellation);

        (await ledger.FindAsync(Session.Key, Cancellation)).ShouldNotBeNull().State.ShouldBe(DeliveryState.Delivered);
        logged.Text.ShouldContain("north-clinic/S-1");
        logged.Text.ShouldNotContainAny("Lindqvist", "P-0001", "1961");
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        Directory.Delete(folder, recursive: true);
    }
}
