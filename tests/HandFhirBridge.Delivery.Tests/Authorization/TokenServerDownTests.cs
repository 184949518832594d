using HandFhirBridge.Delivery.Authorization;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using WireMock.RequestBuilders;
using WireMock.ResponseBuilders;
using WireMock.Server;

namespace HandFhirBridge.Delivery.Tests.Authorization;

/// <summary>The authorization server is away; nothing is sent, nothing is lost.</summary>
public sealed class TokenServerDownTests : TargetTests
{
    private readonly string folder = Directory.CreateTempSubdirectory("token-").FullName;

    [Fact]
    public async Task Deliver_TokenServerDown_WaitsAndDeliversWhenItIsBack()
    {
        using var keys = new KeyFolder().WithEc("k1");
        var port = LoopbackPort.Claim();
        await using var host = Host(keys.Path, port);
        await host.StartAsync(Cancellation);
        var ledger = host.Services.GetRequiredService<ILedger>();
        await ledger.AcceptAsync([Session], Cancellation);

        (await AttemptAsync(ledger, AttemptStatus.Retry)).ProblemCode.ShouldBe("HFB4009");
        Target.Requests.ShouldBeEmpty("nothing goes out without a token");

        using var server = WireMockServer.Start(port);
        server.Given(Request.Create().WithPath("/token").UsingPost()).RespondWith(Response.Create().WithStatusCode(200)
            .WithHeader("Content-Type", "application/json").WithBody("""{"access_token":"t1","token_type":"bearer","expires_in":300}"""));
        await AttemptAsync(ledger, AttemptStatus.Delivered);
        await host.StopAsync(Cancellation);

        Target.Transactions.Count.ShouldBe(1);
        (await ledger.FindAsync(Session.Key, Cancellation)).ShouldNotBeNull().State.ShouldBe(DeliveryState.Delivered);
    }

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        Directory.Delete(folder, recursive: true);
    }

    private async Task<DeliveryAttempt> AttemptAsync(ILedger ledger, AttemptStatus status)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(Cancellation);
        limit.CancelAfter(TimeSpan.FromMinutes(1));
        while (true)
        {
            if ((await ledger.ReadAttemptsAsync(Session.Key, limit.Token)).LastOrDefault(a => a.Status == status) is { } attempt)
            {
                return attempt;
            }

            await Task.Delay(20, limit.Token);
        }
    }

    private WebApplication Host(string keys, int port)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Services.AddDelivery(options =>
        {
            options.LedgerPath = Path.Combine(folder, "ledger.db");
            options.PollInterval = options.Retry.First = TimeSpan.FromMilliseconds(100);
            options.Retry.Longest = options.Retry.FirstAfterError = TimeSpan.FromSeconds(1);
            options.Targets.Add(new()
            {
                BaseUrl = Target.Base,
                BreakDuration = TimeSpan.FromSeconds(1),
                ConnectRetries = 0,
                SignIn = new()
                {
                    Method = SignInMethod.BackendServices, ClientId = "bridge", KeysDirectory = keys, TokenEndpoint = new($"http://127.0.0.1:{port}/token"),
                },
            });
        });
        return builder.Build();
    }
}
