using Polly;
using Polly.CircuitBreaker;
using Polly.Retry;
using Polly.Timeout;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>What stands around each request: few tries for a connection, one circuit per target, a time limit.</summary>
internal static class TargetPipeline
{
    private const int FailuresThatOpen = 5;

    public static ResiliencePipeline<TargetAnswer> Build(
        TargetOptions options, TimeProvider clock, Func<double> randomness, Action<TimeSpan> opened)
    {
        var builder = new ResiliencePipelineBuilder<TargetAnswer> { TimeProvider = clock };
        if (options.ConnectRetries > 0)
        {
            builder.AddRetry(new RetryStrategyOptions<TargetAnswer>
            {
                MaxRetryAttempts = options.ConnectRetries,
                Delay = TimeSpan.FromMilliseconds(200),
                BackoffType = DelayBackoffType.Exponential,
                UseJitter = true,
                Randomizer = randomness,
                ShouldHandle = arguments => ValueTask.FromResult(arguments.Outcome.Exception is HttpRequestException failure && NeverSent(failure)),
            });
        }

        return builder
            .AddCircuitBreaker(new CircuitBreakerStrategyOptions<TargetAnswer>
            {
                FailureRatio = 0.9,
                MinimumThroughput = FailuresThatOpen,
                SamplingDuration = TimeSpan.FromSeconds(30),
                BreakDuration = options.BreakDuration,
                ShouldHandle = arguments => ValueTask.FromResult(
                    arguments.Outcome.Exception is HttpRequestException or IOException or TimeoutRejectedException
                    || arguments.Outcome.Result?.Status is 502 or 503 or 504),
                OnOpened = arguments =>
                {
                    opened(arguments.BreakDuration);
                    return default;
                },
            })
            .AddTimeout(new TimeoutStrategyOptions { Timeout = options.Timeout })
            .Build();
    }

    /// <summary>True if the failure came before the first byte of the request went out.</summary>
    public static bool NeverSent(HttpRequestException failure) => failure.HttpRequestError
        is HttpRequestError.ConnectionError or HttpRequestError.NameResolutionError or HttpRequestError.SecureConnectionError
        or HttpRequestError.ProxyTunnelError;
}
