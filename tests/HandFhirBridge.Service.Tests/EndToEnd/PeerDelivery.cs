using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>Delivery to a FHIR server that others wrote.</summary>
public sealed class PeerDelivery : ExampleDelivery
{
    private PeerServer? peer;

    /// <inheritdoc/>
    public override string? Missing => PeerServer.Missing;

    /// <inheritdoc/>
    public override HttpClient Fhir => peer!.Http;

    /// <inheritdoc/>
    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        peer?.Dispose();
    }

    internal override async Task<ServiceProcess> StartServiceAsync(string dataDirectory, CancellationToken cancellation)
    {
        peer = await PeerServer.StartAsync(keepDigits: true, cancellation);
        return await ServiceProcess.StartAsync(dataDirectory, [("Target__BaseUrl", peer.BaseUrl.ToString())], cancellation);
    }
}
