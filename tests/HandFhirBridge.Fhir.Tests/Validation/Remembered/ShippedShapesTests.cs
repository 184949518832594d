using System.Runtime.CompilerServices;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Fhir.Validation.Remembered;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

public sealed class ShippedShapesTests
{
    private const string Regenerate = "HFB_REGENERATE";

    // A validator that starts with no memory validates every shape in full once; what it remembers is what may be shipped.
    [Fact]
    public void Load_CommittedShapes_AreThoseTheFullValidatorFindsClean()
    {
        var clean = new CleanShapes();
        var validator = new SessionValidator(clean);
        foreach (var bundle in ShippedSessions.All)
        {
            validator.Validate(bundle).ShouldBeEmpty();
        }

        var fresh = ShippedShapes.Write(clean.All);
        if (Environment.GetEnvironmentVariable(Regenerate) == "1")
        {
            File.WriteAllBytes(CommittedPath(), fresh);
            Assert.Skip("clean-shapes.bin has been written anew; build and test again without HFB_REGENERATE.");
        }

        EmbeddedDefinitions.ReadShapes().AsSpan().SequenceEqual(fresh).ShouldBeTrue($"Run the test with {Regenerate}=1 to write clean-shapes.bin anew.");
        ShippedShapes.Load(new CleanShapes()).All.Count().ShouldBe(clean.All.Count());
    }

    [Fact]
    public void Load_ShapesMadeWithOtherDefinitions_AddsNone()
    {
        var file = ShippedShapes.Write([ShapeKey.Of([1])]);
        file[0] ^= 1;

        ShippedShapes.Load(new CleanShapes(), file).All.ShouldBeEmpty();
        file[0] ^= 1;
        ShippedShapes.Load(new CleanShapes(), file).All.ShouldHaveSingleItem();
    }

    private static string CommittedPath([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../../../src/HandFhirBridge.Fhir/Validation/Remembered/clean-shapes.bin"));
}
