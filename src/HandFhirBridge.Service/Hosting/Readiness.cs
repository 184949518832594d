using HandFhirBridge.Fhir.Validation;

namespace HandFhirBridge.Service.Hosting;

/// <summary>
/// Warms the validator up when the service starts; ready once it has given a verdict. What only sessions of an unknown shape wait for
/// (ADR 0405) is made ready afterwards.
/// </summary>
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
        var validator = services.GetRequiredService<SessionValidator>();
        validator.WarmUpFirst();
        IsReady = true;
        validator.WarmUp();
    }
}
