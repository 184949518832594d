namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>At a FHIR server that others wrote: npm @medplum/fhir-router; tests/peers/README.md says how independent it is.</summary>
public sealed class PeerDeliveryTests : DeliveryContract, IClassFixture<PeerDelivery>
{
    public PeerDeliveryTests(PeerDelivery delivery)
        : base(delivery) =>
        Assert.SkipWhen(delivery.Missing is not null, delivery.Missing ?? "");
}
