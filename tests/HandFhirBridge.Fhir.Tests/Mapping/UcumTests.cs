using Fhir.Metrics;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class UcumTests
{
    private static readonly SystemOfUnits Ucum = UCUM.Load();

    // Reference library Fhir.Metrics reads ucum-essence (UCUM, Regenstrief Institute): each code must be a unit it knows.
    [Fact]
    public void Map_EachUnit_IsUcum()
    {
        var written = Repository.ExampleSessions().SelectMany(p => Parts.Of<Hl7.Fhir.Model.Quantity>(Mapped.Map(Mapped.Session(p))))
            .Concat(Parts.Of<Hl7.Fhir.Model.Quantity>(Mapped.Map(Samples.Clean with { Setup = Samples.Clean.Setup with { TableHeight = new(30m, Assessment.Sessions.LengthUnit.Inch) } })))
            .ToList();
        written.ShouldAllBe(q => q.System == "http://unitsofmeasure.org" && q.Unit != null);
        var codes = written.Select(q => q.Code!).Distinct().Order(StringComparer.Ordinal).ToList();
        codes.ShouldBe(["%", "[in_i]", "a", "cm", "s", "{score}"]);
        // UCUM, rule 12 (annotations): braces alone stand for the unity, which has no axis.
        foreach (var code in codes.Where(c => c[0] != '{'))
        {
            Ucum.Metric(code).Axes.ShouldNotBeEmpty(code);
        }
    }

    [Fact]
    public void UnknownUnit_IsRefusedByTheReference() => Should.Throw<Exception>(() => Ucum.Metric("second"));
}
