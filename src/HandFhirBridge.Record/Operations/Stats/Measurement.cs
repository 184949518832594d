using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary>One value that statistics are based on.</summary>
/// <param name="Value">Number, in the unit of <paramref name="Quantity"/>.</param>
/// <param name="Quantity">The value as it stands, with a unit of UCUM.</param>
/// <param name="At">When it was measured, in ticks of UTC; null where the Observation does not say.</param>
/// <param name="Source">Observation it stands in.</param>
internal sealed record Measurement(decimal Value, Quantity Quantity, long? At, Observation Source);
