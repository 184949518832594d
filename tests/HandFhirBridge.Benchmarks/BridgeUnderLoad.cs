using System.Diagnostics;
using HandFhirBridge.Delivery;
using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Ledger;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Http;

namespace HandFhirBridge.Benchmarks;

/// <summary>One instance of delivery as the service runs it: ledger on the disk, read-back after each write.</summary>
internal sealed class BridgeUnderLoad : IAsyncDisposable
{
    private readonly ServiceProvider services;
    private readonly Dispatcher dispatcher;

    /// <param name="target">FHIR base.</param>
    /// <param name="ledger">Path of an SQLite ledger, or <c>file:PATH</c> of a PostgreSQL connection string.</param>
    /// <param name="knowledge">Folder of what is known of targets, as the service keeps it: capabilities are read once a day, not at each start.</param>
    /// <param name="distance">Time added to each request, as a server elsewhere takes it.</param>
    internal BridgeUnderLoad(Uri target, string ledger, string knowledge, TimeSpan distance)
    {
        var isShared = ledger.StartsWith("file:", StringComparison.Ordinal);
        var collection = new ServiceCollection().AddLogging().AddDelivery(options =>
        {
            options.LedgerPath = isShared ? options.LedgerPath : ledger;
            options.LedgerConnection = isShared ? ledger : null;
            options.SingleInstance = !isShared;
            options.TargetKnowledgePath = knowledge;
            options.Targets.Add(new() { BaseUrl = target });
        });
        collection.ConfigureAll<HttpClientFactoryOptions>(client =>
            client.HttpMessageHandlerBuilderActions.Add(handlers => handlers.AdditionalHandlers.Add(new DistantServer(distance))));
        services = collection.BuildServiceProvider();
        Ledger = services.GetRequiredService<ILedger>();
        dispatcher = services.GetRequiredService<Dispatcher>();
    }

    internal ILedger Ledger { get; }

    internal Task StartAsync() => ((IHostedService)dispatcher).StartAsync(CancellationToken.None);

    /// <summary>Milliseconds until so many are delivered.</summary>
    /// <exception cref="InvalidOperationException">A session was held or failed: then nothing was measured.</exception>
    internal async Task<double> UntilDeliveredAsync(int sessions)
    {
        var start = Stopwatch.GetTimestamp();
        while (true)
        {
            var states = (await Ledger.CountAsync(CancellationToken.None)).ByState;
            if (states[DeliveryState.Delivered] == sessions)
            {
                return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
            }

            if (states[DeliveryState.Held] + states[DeliveryState.Failed] > 0)
            {
                throw new InvalidOperationException("A session was held or failed, so delivery cannot be measured.");
            }

            await Task.Delay(20);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await ((IHostedService)dispatcher).StopAsync(CancellationToken.None);
        await services.DisposeAsync();
    }

    private sealed class DistantServer(TimeSpan distance) : DelegatingHandler
    {
        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            if (distance > TimeSpan.Zero)
            {
                await Task.Delay(distance, cancellationToken);
            }

            return await base.SendAsync(request, cancellationToken);
        }
    }
}
