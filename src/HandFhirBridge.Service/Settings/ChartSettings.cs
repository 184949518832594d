namespace HandFhirBridge.Service.Settings;

/// <summary>The chart page opened from a record, by SMART App Launch.</summary>
public sealed class ChartSettings
{
    /// <summary>Address under which browsers reach this service, for example <c>https://hands.clinic.example</c>; null takes that of the request. Set it behind a proxy.</summary>
    public Uri? PublicAddress { get; set; }

    /// <summary>Servers that may open the page; empty lets none.</summary>
    public IList<SmartServerSettings> Servers { get; } = [];
}
