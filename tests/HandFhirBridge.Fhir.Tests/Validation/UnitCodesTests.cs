using Fhir.Metrics;
using HandFhirBridge.Fhir.Validation.Rules;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed class UnitCodesTests
{
    // Reference library Fhir.Metrics reads ucum-essence (UCUM, Regenstrief Institute).
    [Fact]
    public void All_EachCode_IsUcum()
    {
        var ucum = UCUM.Load();

        // UCUM, rule 12 (annotations): braces alone stand for the unity, which has no axis.
        foreach (var code in UnitCodes.All.Where(code => code[0] != '{'))
        {
            ucum.Metric(code).Axes.ShouldNotBeEmpty(code);
        }
    }
}
