using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Items side by side: those of the response, of one occurrence of a group, or under one answer.</summary>
/// <param name="Items">The items.</param>
/// <param name="Location">FHIRPath of what holds them.</param>
/// <param name="Outer">The scope around; null for the response.</param>
internal sealed record ItemScope(List<QuestionnaireResponse.ItemComponent> Items, string Location, ItemScope? Outer)
{
    internal string LocationOf(int at) => $"{Location}.item[{at}]";
}
