using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>Delivery to the embedded record, asked over HTTP as any server is.</summary>
public sealed class EmbeddedDelivery : ExampleDelivery
{
    /// <inheritdoc/>
    public override HttpClient Fhir => Service.Record;

    internal override Task<ServiceProcess> StartServiceAsync(string dataDirectory, CancellationToken cancellation) =>
        ServiceProcess.StartAsync(dataDirectory, cancellation);
}
