using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class DominanceMapperTests
{
    // SNOMED CT 46669005 right handed, 87683000 left handed, 23088002 ambidextrous, 57427004 handedness (sources: docs/mapping.md).
    [Theory]
    [InlineData(Handedness.Right, Hand.Right, "46669005")]
    [InlineData(Handedness.Left, Hand.Left, "87683000")]
    [InlineData(Handedness.Ambidextrous, Hand.Left, "23088002")]
    public void Map_Handedness_IsTheConceptAndTheHandTestedAsDominant(Handedness handedness, Hand tested, string concept)
    {
        var bundle = Mapped.Map(Samples.Clean with { Dominance = new(handedness, DominanceSource.Observed, null, tested) });
        var observation = bundle.OfCode("57427004");
        observation.Value.Code().ShouldBe(concept);
        observation.Method!.Coding.Single().Code.ShouldBe("observed");
        observation.Component(ComponentCodes.TestedAsDominant)!.Value.Code().ShouldBe(WireName.Of(tested));
        observation.Component(ComponentCodes.LateralityQuotient).ShouldBeNull();
        bundle.Trial("writing", tested).Component(ComponentCodes.HandRole)!.Value.Code().ShouldBe("dominant");
        bundle.OfCode($"panel-{WireName.Of(tested)}").Text!.Div!.ShouldContain($"{WireName.Of(tested)} hand (dominant)");
    }

    [Theory]
    [InlineData(Handedness.Right, "right")]
    [InlineData(Handedness.Left, "left")]
    [InlineData(Handedness.Ambidextrous, "ambidextrous")]
    public void Map_WithoutSnomedLicence_UsesOurCodes(Handedness handedness, string code)
    {
        var tested = handedness == Handedness.Left ? Hand.Left : Hand.Right;
        var bundle = Mapped.Map(
            Samples.Clean with { Dominance = new(handedness, DominanceSource.Stated, null, tested) }, options: Mapped.Options with { SnomedLicensed = false });
        bundle.OfCode("handedness").Value.Code().ShouldBe(code);
        FhirText.Of(bundle).ShouldNotContain("57427004");
    }

    // Oldfield RC. Neuropsychologia 1971;9:97-113: the quotient runs from -100 to +100; digits as entered.
    [Fact]
    public void Map_LateralityQuotient_KeepsSignAndDigits()
    {
        var bundle = Mapped.Map(Samples.Clean with { Dominance = new(Handedness.Left, DominanceSource.Inventory, -83.30m, Hand.Left) });
        FhirText.Of(bundle.OfCode("57427004")).ShouldContain("{\"value\":-83.30,\"unit\":\"points\",\"system\":\"http://unitsofmeasure.org\",\"code\":\"{score}\"}");
    }
}
