using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed class BindingsTests
{
    /// <summary>
    /// Required bindings of data types to value sets that cannot be listed, each with the reason why no session can meet it.
    /// A value there is refused (HFB3022), never passed.
    /// </summary>
    private static readonly Dictionary<string, string> NotListed = new(StringComparer.Ordinal)
    {
        ["http://hl7.org/fhir/ValueSet/currencies"] = "Money.currency: ISO 4217; no money is written",
    };

    // The base definitions and the profiles, as the validator loads them.
    [Fact]
    public void RequiredBindings_OfEveryDefinition_AreListed()
    {
        var definitions = new DefinitionSource();
        var valueSets = new ClosedValueSets(definitions);
        var bound = ProfilePackage.Paths.Where(path => path.StartsWith("StructureDefinition-", StringComparison.Ordinal))
            .Select(path => "https://handfhirbridge.example/fhir/StructureDefinition/" + path["StructureDefinition-".Length..^".json".Length])
            .Concat(new CoreDefinitions().Canonicals.Where(canonical => canonical.Contains("/StructureDefinition/", StringComparison.Ordinal)))
            .Select(definitions.Find).OfType<StructureDefinition>()
            .SelectMany(definition => definition.Snapshot?.Element ?? [])
            .Select(element => element.Binding).OfType<ElementDefinition.ElementDefinitionBindingComponent>()
            .Where(binding => binding.Strength == BindingStrength.Required)
            .Select(binding => binding.ValueSet!.Split('|')[0]).Distinct().ToList();

        bound.Count.ShouldBeGreaterThan(40);
        bound.Where(valueSet => valueSets.Find(valueSet) is null).ShouldBe(NotListed.Keys, ignoreOrder: true);
    }
}
