using System.Globalization;
using HandFhirBridge.Delivery;
using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Faults.Worker;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

// faults-worker DATA TARGET FEED FROM BESTRUNG WAIT END
// Accepts the mapped sessions of the folder FEED from number FROM on into the ledger in DATA, and delivers them to TARGET
// meanwhile, with the dispatcher, ledger and HTTP client of the service. Prints "ready", then each number that is committed.
// WAIT is how long, in ms, the server may be at work on a write whose client is gone.
// With END it ends when nothing is open any more, and prints how many wait for a person. Made to be killed.
var (data, feed, from, end) = (args[0], args[2], int.Parse(args[3], CultureInfo.InvariantCulture), bool.Parse(args[6]));
var builder = Host.CreateEmptyApplicationBuilder(new());
builder.Logging.AddSimpleConsole(console => console.SingleLine = true).SetMinimumLevel(LogLevel.Error)
    .AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
builder.Services.AddDelivery(Configure);
using var host = builder.Build();
var ledger = host.Services.GetRequiredService<ILedger>();
await host.StartAsync();
await SayAsync("ready");
for (var number = from; FedSession.Read(feed, number) is { } session; number++)
{
    var result = (await ledger.AcceptAsync([session.ToAccept()], CancellationToken.None))[0];
    await SayAsync(result.Outcome is AcceptOutcome.Accepted or AcceptOutcome.AlreadyAccepted
        ? number.ToString(CultureInfo.InvariantCulture)
        : $"refused {number} {result.Problem}");
    await Task.Delay(Pace());
}

while (!end || (await ledger.CountAsync(CancellationToken.None)).Open > 0)
{
    await Task.Delay(50);
}

await host.StopAsync();
await SayAsync($"waiting {(await ledger.CountAsync(CancellationToken.None)).Waiting}");
return 0;

// Two or three at once, then a while nothing, as clinics send.
TimeSpan Pace() => end ? TimeSpan.Zero : TimeSpan.FromMilliseconds(Random.Shared.Next(3) == 0 ? Random.Shared.Next(100, 500) : 0);

// The harness hears of a commit only after it, never before.
static async Task SayAsync(string line)
{
    await Console.Out.WriteLineAsync(line);
    await Console.Out.FlushAsync();
}

void Configure(DeliveryOptions options)
{
    options.LedgerPath = Path.Combine(data, "ledger.db");
    options.TargetKnowledgePath = Path.Combine(data, "targets");
    options.PollInterval = TimeSpan.FromMilliseconds(100);
    // Short waits, so that a campaign takes minutes; their proportions are the service's.
    options.Retry.First = TimeSpan.FromMilliseconds(100);
    options.Retry.FirstAfterError = TimeSpan.FromMilliseconds(int.Parse(args[5], CultureInfo.InvariantCulture));
    options.Retry.Longest = TimeSpan.FromSeconds(4);
    // A server that fails one request in four fails a session five times in a row now and then; that is no loss, but not what is asked here.
    options.Retry.ErrorLimit = 100;
    options.Targets.Add(new TargetOptions
    {
        BaseUrl = new Uri(args[1]),
        BestRung = Enum.Parse<Rung>(args[4]),
        BreakDuration = TimeSpan.FromSeconds(1),
        CapabilitiesMaxAge = TimeSpan.FromDays(30),
    });
}
