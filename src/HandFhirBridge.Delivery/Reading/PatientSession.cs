using Hl7.Fhir.Model;

namespace HandFhirBridge.Delivery.Reading;

/// <summary>One session as a chart holds it.</summary>
/// <param name="Report">Its report.</param>
/// <param name="Resources">The report and all that belongs to it; the report alone if it is withdrawn.</param>
public sealed record PatientSession(DiagnosticReport Report, IReadOnlyList<Resource> Resources);
