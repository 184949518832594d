namespace HandFhirBridge.Service.Settings;

/// <summary>A FHIR server whose users may open the chart page with their own access.</summary>
public sealed class SmartServerSettings
{
    /// <summary>What patients' results are read with by default (SMART App Launch 2.2, scopes v2).</summary>
    public const string DefaultScope =
        "patient/Patient.rs patient/DiagnosticReport.rs patient/Observation.rs patient/QuestionnaireResponse.rs patient/Device.rs";

    /// <summary>FHIR base, the <c>iss</c> of a launch; compared without a slash at its end.</summary>
    public string BaseUrl { get; set; } = "";

    /// <summary>Client id the server's administrator registered for this page.</summary>
    public string ClientId { get; set; } = "";

    /// <summary>Names the client secret, <c>env:NAME</c> or <c>file:PATH</c>; null for a public client, which PKCE protects.</summary>
    public string? Secret { get; set; }

    /// <summary>Scopes asked for, separated by spaces, beside the launch's own. Default <see cref="DefaultScope"/>.</summary>
    public string Scope { get; set; } = DefaultScope;
}
