namespace HandFhirBridge.Service.Settings;

/// <summary>What the service tells those who watch it. None of it holds patient data.</summary>
public sealed class TelemetrySettings
{
    /// <summary>Collector that traces and metrics are sent to by OTLP. Null: as <c>OTEL_EXPORTER_OTLP_ENDPOINT</c> says, and without that nowhere.</summary>
    public Uri? OtlpEndpoint { get; set; }

    /// <summary>Form of the log. Null: text on a terminal, JSON elsewhere.</summary>
    public LogForm? Logs { get; set; }

    /// <summary>Least grave entries of this program that are logged; the framework logs from Warning. Default Warning.</summary>
    public LogLevel LogLevel { get; set; } = LogLevel.Warning;
}
