using System.Collections.Immutable;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>A ViewDefinition of SQL on FHIR v2: how resources of one type become rows. R4 has no such resource, so it is read by <see cref="ViewDefinitionReader"/>.</summary>
/// <param name="Name">Name for tables and files; <c>view</c> where the definition has none.</param>
/// <param name="Resource">Resource type the view reads.</param>
/// <param name="Constants">Values that expressions refer to as <c>%name</c>.</param>
/// <param name="Select">Columns and their unnesting.</param>
/// <param name="Where">FHIRPath conditions a resource must meet, all of them.</param>
public sealed record ViewDefinition(
    string Name, string Resource, ImmutableArray<ViewConstant> Constants, ImmutableArray<ViewSelect> Select, ImmutableArray<ViewPath> Where);
