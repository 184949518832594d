using HandFhirBridge.Fhir.Validation;

namespace HandFhirBridge.Service.Hosting;

/// <summary>Warms the validator up when the service starts, so that the first session does not wait; ready when that is done.</summary>
/// <param name="services">Gives the validator, whose making is the slow part.</param>
public sealed class Readiness(IServiceProvider services) : BackgroundService
{
    /// <summary>True once a validation has run.</summary>
    public bool IsReady { get; private set; }

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        // Off the start-up path: the API answers /health/live meanwhile.
        await Task.Yield();
        services.GetRequiredService<SessionValidator>().WarmUp();
        IsReady = true;
    }
}
