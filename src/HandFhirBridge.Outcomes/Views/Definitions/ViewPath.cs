namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>A FHIRPath expression and where it stands in its view, so that a fault in it can be named.</summary>
/// <param name="Expression">FHIRPath.</param>
/// <param name="Location">JSON path in the ViewDefinition.</param>
public readonly record struct ViewPath(string Expression, string Location);
