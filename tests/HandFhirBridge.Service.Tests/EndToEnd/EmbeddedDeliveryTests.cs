namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>The same at the embedded record.</summary>
[Collection<SharedEmbeddedDelivery>]
public sealed class EmbeddedDeliveryTests(EmbeddedDelivery delivery) : DeliveryContract(delivery);
