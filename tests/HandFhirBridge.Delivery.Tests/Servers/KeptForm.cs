namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>What of a session a server ends up with.</summary>
public enum KeptForm
{
    Whole,
    ObservationsAndDocument,
    Document,
}
