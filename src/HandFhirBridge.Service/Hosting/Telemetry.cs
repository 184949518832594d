using HandFhirBridge.Delivery.Dispatch;
using HandFhirBridge.Service.Settings;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace HandFhirBridge.Service.Hosting;

/// <summary>Logs, traces and metrics of the service.</summary>
internal static class Telemetry
{
    // OpenTelemetry specification, "OpenTelemetry Protocol Exporter": name and meaning of the variable.
    private const string EndpointVariable = "OTEL_EXPORTER_OTLP_ENDPOINT";

    /// <summary>
    /// Logs to standard output. What the framework says below Warning stays out, whatever the level: it names addresses of
    /// requests, and those name patients.
    /// </summary>
    public static void AddLogs(ILoggingBuilder logging, TelemetrySettings settings)
    {
        logging.ClearProviders().SetMinimumLevel(LogLevel.Warning)
            .AddFilter(nameof(HandFhirBridge), settings.LogLevel)
            // Says at each start that the keys lie unencrypted in keys/; docs/settings.md says it once, with what to do.
            .AddFilter("Microsoft.AspNetCore.DataProtection", settings.LogLevel == LogLevel.None ? LogLevel.None : LogLevel.Error);
        var form = settings.Logs ?? (Console.IsOutputRedirected ? LogForm.Json : LogForm.Text);
        if (form == LogForm.Json)
        {
            logging.AddJsonConsole(console =>
            {
                console.UseUtcTimestamp = true;
                console.TimestampFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
            });
        }
        else
        {
            logging.AddSimpleConsole(console => console.SingleLine = true);
        }
    }

    /// <summary>
    /// Sends traces and metrics of delivery where a collector is named, and does nothing where none is. Requests themselves are
    /// not instrumented: their addresses name patients.
    /// </summary>
    public static void AddExport(WebApplicationBuilder builder, TelemetrySettings settings)
    {
        if (settings.OtlpEndpoint is { } endpoint)
        {
            // Where the exporter reads it, so that both ways mean the same.
            builder.Configuration[EndpointVariable] = endpoint.OriginalString;
        }

        if (string.IsNullOrEmpty(builder.Configuration[EndpointVariable]))
        {
            return;
        }

        builder.Services.AddOpenTelemetry()
            .ConfigureResource(resource => resource
                .AddService("handfhirbridge", serviceVersion: BridgeParts.Version)
                .AddEnvironmentVariableDetector())
            .WithTracing(traces => traces.AddSource(DeliveryInstruments.Name).AddOtlpExporter())
            .WithMetrics(metrics => metrics.AddMeter(DeliveryInstruments.Name).AddOtlpExporter());
    }
}
