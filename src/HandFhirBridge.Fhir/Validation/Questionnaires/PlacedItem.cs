using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>An item of a response and where it stands.</summary>
/// <param name="Item">The item.</param>
/// <param name="Location">Its FHIRPath.</param>
internal sealed record PlacedItem(QuestionnaireResponse.ItemComponent Item, string Location);
