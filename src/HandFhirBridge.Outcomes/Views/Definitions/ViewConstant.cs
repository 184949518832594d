using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>A named value of a view.</summary>
/// <param name="Name">Name without the per cent sign.</param>
/// <param name="Value">FHIR primitive.</param>
public sealed record ViewConstant(string Name, PrimitiveType Value);
