using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Reports;

/// <summary>What a reader of a withdrawn report sees: that it is withdrawn and why, and none of its values.</summary>
/// <param name="Site">Clinic id.</param>
/// <param name="SessionId">Session id.</param>
/// <param name="Patient">Identifier of the chart; null if the report names none.</param>
/// <param name="StartedAt">When the session was given; null if the report does not say.</param>
/// <param name="Issued">When it was withdrawn.</param>
/// <param name="Statement">The withdrawal in words, as it stands in the report's conclusion.</param>
public sealed record WithdrawalNotice(
    string Site, string SessionId, string? Patient, DateTimeOffset? StartedAt, DateTimeOffset Issued, string Statement)
{
    /// <summary>The notice of a report that is entered in error.</summary>
    public static WithdrawalNotice Of(DiagnosticReport report, string site, string sessionId)
    {
        ArgumentNullException.ThrowIfNull(report);
        return new(
            site,
            sessionId,
            report.Subject?.Identifier?.Value,
            (report.Effective as Period)?.StartElement?.ToDateTimeOffset(TimeSpan.Zero),
            report.Issued ?? DateTimeOffset.MinValue,
            report.Conclusion ?? "This report was withdrawn.");
    }
}
