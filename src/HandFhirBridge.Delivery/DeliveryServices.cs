using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Http;
using Microsoft.Extensions.Options;

namespace HandFhirBridge.Delivery;

/// <summary>Puts ledger, targets and dispatch into a host.</summary>
public static class DeliveryServices
{
    /// <summary>
    /// Adds <see cref="ILedger"/>, <see cref="TargetRegistry"/> and the <see cref="Dispatcher"/>, which starts with the host.
    /// The settings are read when the first of them is asked for; wrong ones throw <see cref="OptionsValidationException"/>.
    /// </summary>
    public static IServiceCollection AddDelivery(this IServiceCollection services, Action<DeliveryOptions> configure)
    {
        services.AddLedger(configure);
        services.AddTargets();
        services.AddSingleton<PatientFinder>();
        services.AddSingleton(_ => Ladder.Whole());
        services.AddSingleton<SessionDelivery>();
        services.AddSingleton(provider => new RetryPlan(
            provider.GetRequiredService<DeliveryOptions>().Retry, provider.GetRequiredService<TimeProvider>(), Random.Shared.NextDouble));
        services.AddSingleton(CreateReaders);
        services.AddSingleton(provider => provider.GetRequiredService<RecordReaders>().First);
        services.AddSingleton<DeliveryInstruments>();
        services.AddSingleton<AttemptRunner>();
        services.AddSingleton<Dispatcher>();
        services.AddHostedService(provider => provider.GetRequiredService<Dispatcher>());
        return services;
    }

    /// <summary>Adds <see cref="ILedger"/> alone, for commands that accept or look and leave the sending to another process.</summary>
    public static IServiceCollection AddLedger(this IServiceCollection services, Action<DeliveryOptions> configure)
    {
        services.AddDeliveryOptions(configure);
        services.AddSingleton<LedgerSignal>();
        services.AddSingleton<ILedger>(provider => LedgerStores.Open(
            provider.GetRequiredService<DeliveryOptions>(),
            provider.GetRequiredService<TimeProvider>(),
            provider.GetRequiredService<DeliveryOptions>().SealPayloads
                ? new DataProtectionPayloadProtector(provider.GetRequiredService<IDataProtectionProvider>())
                : null,
            provider.GetRequiredService<LedgerSignal>()));
        return services;
    }

    /// <summary>Adds <see cref="TargetRegistry"/> alone, for asking the targets without anything to send.</summary>
    public static IServiceCollection AddTargets(this IServiceCollection services, Action<DeliveryOptions> configure) =>
        services.AddDeliveryOptions(configure).AddTargets();

    private static IServiceCollection AddTargets(this IServiceCollection services)
    {
        services.AddHttpClient();
        services.AddSingleton<IConfigureOptions<HttpClientFactoryOptions>>(provider => new TargetClientSetup(
            provider.GetRequiredService<DeliveryOptions>(),
            new Lazy<IHttpClientFactory>(provider.GetRequiredService<IHttpClientFactory>),
            provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(CreateTargets);
        return services;
    }

    private static IServiceCollection AddDeliveryOptions(this IServiceCollection services, Action<DeliveryOptions> configure)
    {
        services.AddOptions<DeliveryOptions>().Configure(configure);
        services.TryAddSingleton<IValidateOptions<DeliveryOptions>, DeliveryOptionsCheck>();
        services.AddSingleton(provider => provider.GetRequiredService<IOptions<DeliveryOptions>>().Value);
        services.TryAddSingleton(TimeProvider.System);
        return services;
    }

    private static TargetRegistry CreateTargets(IServiceProvider provider)
    {
        var clock = provider.GetRequiredService<TimeProvider>();
        var options = provider.GetRequiredService<DeliveryOptions>();
        var clients = provider.GetRequiredService<IHttpClientFactory>();
        var knowledge = options.TargetKnowledgePath is { } path ? new TargetKnowledgeFile(path) : null;
        return new(options.Targets
            .Select(target => new FhirTarget(
                target,
                () => clients.CreateClient(TargetClientSetup.NameOf(target)),
                clock,
                Random.Shared.NextDouble,
                knowledge,
                provider.GetService<ILedger>() as IInstanceGate))
            .ToList());
    }

    // They sign in as writing does.
    private static RecordReaders CreateReaders(IServiceProvider provider)
    {
        var clients = provider.GetRequiredService<IHttpClientFactory>();
        return new(provider.GetRequiredService<DeliveryOptions>().Targets.Select(target => (
            target.Name,
            new RecordReader(clients.CreateClient(TargetClientSetup.NameOf(target)), new Uri(target.BaseUrl!.OriginalString.TrimEnd('/') + "/")))));
    }
}
