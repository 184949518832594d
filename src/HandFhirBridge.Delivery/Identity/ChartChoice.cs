using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>A person's decision which chart a held session belongs to.</summary>
/// <param name="PatientId">Id of the chart at the target.</param>
/// <param name="Decision">Who chose it, and why it is the right one.</param>
public sealed record ChartChoice(string PatientId, PersonDecision Decision);
