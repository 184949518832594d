using HandFhirBridge.Service.Reports.Printing;

namespace HandFhirBridge.Service.Settings;

/// <summary>A clinic.</summary>
public sealed class SiteSettings
{
    /// <summary>Id used in session documents.</summary>
    public string Id { get; set; } = "";

    /// <summary>Name as shown in reports.</summary>
    public string Name { get; set; } = "";

    /// <summary>Name of the target its sessions go to. Default <c>default</c>, which is <c>Target</c>.</summary>
    public string Target { get; set; } = Delivery.Ledger.AcceptedSession.DefaultTarget;

    /// <summary>Paper of the printed report on its results. Default A4.</summary>
    public PaperSize Paper { get; set; } = PaperSize.A4;

    /// <summary>System of the organization's identifier; null if it has none.</summary>
    public string? IdentifierSystem { get; set; }

    /// <summary>Value of the organization's identifier; null if it has none.</summary>
    public string? IdentifierValue { get; set; }
}
