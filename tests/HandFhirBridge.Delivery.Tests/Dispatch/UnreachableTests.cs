using System.Net;
using System.Net.Sockets;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class UnreachableTests : TargetTests
{
    [Fact]
    public async Task Connection_Refused_IsTriedForDaysWithoutEnd()
    {
        using var bridge = new Bridge(FreeAddress());
        await bridge.DeliverAsync(Session);

        await bridge.RunToTheEndAsync(most: 40);

        var entry = await bridge.EntryAsync(Session);
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, "HFB4001"));
        (bridge.Clock.GetUtcNow() - entry.AcceptedAt).ShouldBeGreaterThan(TimeSpan.FromDays(2));
        (await bridge.LastAttemptAsync(Session)).Status.ShouldBe(AttemptStatus.Retry);
    }

    [Fact]
    public async Task Connection_ClosedInsteadOfAnAnswer_IsUnknown()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        var closing = Task.Run(async () =>
        {
            using var socket = await listener.AcceptSocketAsync(Cancellation);
            var buffer = new byte[16 * 1024];
            await socket.ReceiveAsync(buffer, Cancellation);
            socket.Close();
        }, Cancellation);
        using var bridge = new Bridge(new Uri($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/fhir"));

        var answer = await bridge.Target.PostAsync("{}"u8.ToArray(), Cancellation);

        await closing;
        answer.Kind.ShouldBe(AnswerKind.NoAnswer);
    }

    [Fact]
    public async Task Connection_NamePartNotResolvable_WasNeverSent()
    {
        // RFC 6761 section 6.4: no name below "invalid" ever resolves.
        using var bridge = new Bridge(new Uri("http://no-such-host.invalid/fhir"));

        (await bridge.Target.PostAsync("{}"u8.ToArray(), Cancellation)).Kind.ShouldBe(AnswerKind.NotSent);
    }

    [Fact]
    public async Task Circuit_AfterSeveralFailures_LeavesTheTargetAloneForAWhile()
    {
        using var bridge = new Bridge(FreeAddress());
        var sessions = Enumerable.Range(1, 20).Select(n => MappedSessions.Session($"S-{n}", patient: $"P-{n}")).ToList();
        await bridge.Ledger.AcceptAsync(sessions, Cancellation);

        await bridge.RunAsync();

        bridge.Target.IsPaused.ShouldBeTrue();
        bridge.Registry.Paused.ShouldBe(["default"]);
        var untouched = 0;
        foreach (var session in sessions)
        {
            untouched += (await bridge.EntryAsync(session)).Attempts == 0 ? 1 : 0;
        }

        untouched.ShouldBeGreaterThanOrEqualTo(10);
        bridge.Clock.Advance(bridge.Target.Options.BreakDuration);
        bridge.Target.IsPaused.ShouldBeFalse();
    }

    [Fact]
    public async Task Server_BackAfterADay_GetsEverythingOnce()
    {
        var down = true;
        ScriptedTarget.Script gone = (_, usual) => down ? ScriptedTarget.Answer(503) : usual();
        (Target.OnPatientSearch, Target.OnMetadata, Target.OnTransaction) = (gone, gone, gone);
        await Bridge.DeliverAsync(Session);
        while (Bridge.Clock.GetUtcNow() < new DateTimeOffset(2026, 3, 3, 9, 0, 0, TimeSpan.Zero))
        {
            await Bridge.RunToTheEndAsync(most: 1);
        }

        down = false;
        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    private static Uri FreeAddress()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return new($"http://127.0.0.1:{((IPEndPoint)listener.LocalEndpoint).Port}/fhir");
    }
}
