namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>Tests that read what one delivery to the embedded record left there.</summary>
[CollectionDefinition]
public sealed class SharedEmbeddedDelivery : ICollectionFixture<EmbeddedDelivery>;
