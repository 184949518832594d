using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation.Remembered;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>The elements of every definition in hand, with the name that shapes give what holds them.</summary>
internal static class DefinedElements
{
    private static readonly DefinitionSource Definitions = new();

    public static IEnumerable<(string Definition, string Holder, string Name, ElementDefinition Element)> All =>
        from canonical in Canonicals()
        let definition = (StructureDefinition)Definitions.Find(canonical)!
        where definition.Snapshot?.Element is not null
        let byId = definition.Snapshot!.Element.ToDictionary(element => element.ElementId!, StringComparer.Ordinal)
        from element in definition.Snapshot!.Element
        where element.Path!.Contains('.', StringComparison.Ordinal)
        select (definition.Id!, HolderOf(definition, byId, element), NameOf(element), element);

    /// <summary>The first element of each definition, which carries the rules about the whole.</summary>
    public static IEnumerable<ElementDefinition> Roots =>
        Canonicals().Select(canonical => (StructureDefinition)Definitions.Find(canonical)!).Where(definition => definition.Snapshot is not null)
            .Select(definition => definition.Snapshot!.Element[0]);

    private static IEnumerable<string> Canonicals() =>
        new CoreDefinitions().Canonicals.Where(canonical => canonical.Contains("/StructureDefinition/", StringComparison.Ordinal))
            .Concat(ProfilePackage.Files().Where(file => file.Path.StartsWith("StructureDefinition-", StringComparison.Ordinal))
                .Select(file => System.Text.Json.JsonDocument.Parse(file.Content).RootElement.GetProperty("url").GetString()!));

    private static string NameOf(ElementDefinition element) => element.Path![(element.Path!.LastIndexOf('.') + 1)..].Replace("[x]", string.Empty, StringComparison.Ordinal);

    private static string HolderOf(StructureDefinition definition, Dictionary<string, ElementDefinition> byId, ElementDefinition element)
    {
        var parent = byId[element.ElementId![..element.ElementId!.LastIndexOf('.')]];
        if (!parent.Path!.Contains('.', StringComparison.Ordinal))
        {
            return definition.Type == "Extension" && definition.Derivation == StructureDefinition.TypeDerivationRule.Constraint ? definition.Url! : definition.Type!;
        }

        var type = parent.Type.FirstOrDefault()?.Code;
        if (parent.Type.Count > 1)
        {
            throw new NotSupportedException($"{definition.Id}: {element.ElementId} stands in an element of several types.");
        }

        return type switch
        {
            "Extension" => parent.SliceName ?? type,
            "BackboneElement" or "Element" or null => parent.Path,
            "Coding" when parent.Path.EndsWith("eta.tag", StringComparison.Ordinal) => PassedOver.Tag,
            _ => type,
        };
    }
}
