using HandFhirBridge.Record.Search;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Tests;

public sealed class IndexPathTests
{
    // A key that two paths shared would give the matches of one to the searches for the other.
    [Fact]
    public void Key_OfEveryPathOfTheSpecification_IsOfThatPathAlone()
    {
        var paths = ModelInfo.SupportedResources
            .SelectMany(type => SearchParameters.Of(type).Values.SelectMany(p => p.Paths.Concat(p.Components.SelectMany(c => c.Paths)).Select(path => (Name: $"{type} {path.Type} {path.Path.Expression}", path.Key))))
            .ToList();

        paths.Count.ShouldBeGreaterThan(2000);
        paths.GroupBy(p => p.Key).Select(g => g.Select(p => p.Name).Distinct().Count()).ShouldAllBe(count => count == 1);
    }

    // R4 observation.html#search: combo-code is Observation.code | Observation.component.code, which code and component-code ask for too.
    [Fact]
    public void Keys_OfAUnion_AreThoseOfItsSides()
    {
        var parameters = SearchParameters.Of("Observation");

        parameters["combo-code"].Keys.ShouldBe(parameters["code"].Keys.Concat(parameters["component-code"].Keys), ignoreOrder: true);
        parameters["combo-code-value-quantity"].Components[1].Keys.ShouldBe(
            parameters["code-value-quantity"].Components[1].Keys.Concat(parameters["component-code-value-quantity"].Components[1].Keys), ignoreOrder: true);
    }
}
