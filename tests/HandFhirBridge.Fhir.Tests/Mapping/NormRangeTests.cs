using System.Globalization;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class NormRangeTests
{
    // Burger DK, McCluskey A. Aust Occup Ther J 2011;58:355-363, abstract: men of 60 to 69, dominant hand, mean 11.97 s, SD 2.62 s.
    // By hand: (20.4 - 11.97) / 2.62 = 3.2176; 100 x 20.4 / 11.97 = 170.43; limits 11.97 -/+ 5.24. At the limit itself nothing is slow.
    [Theory]
    [InlineData("20.4", "H", "3.22", "170.4")]
    [InlineData("17.21", "N", "2.00", "143.8")]
    [InlineData("17.22", "H", "2.00", "143.9")]
    [InlineData("11.97", "N", "0.00", "100.0")]
    [InlineData("5.00", "N", "-2.66", "41.8")]
    public void Map_PublishedNorm_GivesTheScoreWorkedByHand(string entered, string judgement, string z, string percent)
    {
        var session = Samples.Clean.With("writing", Hand.Right, t => t with { Seconds = Number(entered) }) with
        {
            SexForNorm = SexForNorm.Male,
            Patient = Samples.Clean.Patient with { BirthDate = new DateOnly(1961, 1, 2) },
        };
        var trial = Mapped.Map(session, demonstration: false).Trial("writing", Hand.Right);
        trial.Interpretation.Single().Coding.Single().Code.ShouldBe(judgement);
        ((Quantity)trial.Component(ComponentCodes.ZScore)!.Value!).Value.ShouldBe(Number(z));
        ((Quantity)trial.Component(ComponentCodes.PercentOfNorm)!.Value!).Value.ShouldBe(Number(percent));
        var range = trial.ReferenceRange.ShouldHaveSingleItem();
        (range.Low!.Value, range.High!.Value).ShouldBe((6.73m, 17.21m));
        range.Text.ShouldBe(
            "Norm mean 11.97 s, SD 2.62 s (male, dominant hand, 60 to 69 years); writing-older-adults version 1; evidence: read in the abstract.");
    }

    // R4 observation.html#Observation.referenceRange and constraint obs-3: low, high or text; appliesTo narrows who it is for; age is a Range in UCUM "a".
    [Fact]
    public void Map_AnyNorm_SaysWhoItIsForAndWhereItIsFrom()
    {
        var range = Mapped.Map(Samples.AgainstSiteNorm(Samples.Clean, "writing", 12.20m, 3.50m)).Trial("writing", Hand.Right).ReferenceRange.Single();
        range.Type!.Coding.Single().Code.ShouldBe("normal");
        range.AppliesTo.Select(a => a.Coding.Single().Code).ShouldBe(["female", "dominant"]);
        (range.Age!.Low!.Value, range.Age.High!.Value, range.Age.Low.Code).ShouldBe((20m, 59m, "a"));
        var source = range.Extension.Single();
        source.Url.ShouldBe(Extensions.NormSource);
        source.Extension.ToDictionary(e => e.Url!, e => e.Value!.ToString()).ShouldBe(new Dictionary<string, string?>
        {
            ["normSet"] = "site-set", ["version"] = "3", ["source"] = "Invented for this test", ["evidence"] = "site-double-entry",
            ["demonstrationOnly"] = "false", ["mean"] = "12.20", ["standardDeviation"] = "3.50", ["sampleSize"] = "41", ["note"] = "A note",
        });
    }

    // A time below zero does not exist: mean 3 s and SD 2 s give 0 to 7 s.
    [Fact]
    public void Map_WideNorm_BeginsAtZero()
    {
        var range = Mapped.Map(Samples.AgainstSiteNorm(Samples.Clean, "writing", 3m, 2m)).Trial("writing", Hand.Right).ReferenceRange.Single();
        (range.Low!.Value, range.High!.Value).ShouldBe((0m, 7m));
    }

    [Fact]
    public void Map_SexUnknown_ShowsBothNormsAndJudgesByNone()
    {
        var unknown = Samples.Clean with { SexForNorm = SexForNorm.Unknown };
        var trial = Mapped.Map(Samples.AgainstSiteNorm(unknown, "writing", 12.2m, 3.5m)).Trial("writing", Hand.Right);
        trial.ReferenceRange.Select(r => r.AppliesTo[0].Coding.Single().Code).ShouldBe(["female", "male"]);
        trial.Interpretation.ShouldBeEmpty();
        trial.Component(ComponentCodes.ZScore).ShouldBeNull();
        trial.GetExtensionValue<Code>(Extensions.NotJudged)!.Value.ShouldBe("sex-unknown");
    }

    // Without a demonstration no norm from memory is shown; the embedded sets then have none for somebody of 38.
    [Fact]
    public void Map_NoUsableNorm_SaysSo()
    {
        var trial = Mapped.Map(Samples.Clean, demonstration: false).Trial("writing", Hand.Right);
        trial.ReferenceRange.ShouldBeEmpty();
        trial.GetExtensionValue<Code>(Extensions.NotJudged)!.Value.ShouldBe("age-outside-norms");
        Mapped.Map(Samples.AgainstSiteNorm(Samples.Clean, "writing", 12.2m, 3.5m)).Trial("writing", Hand.Left)
            .GetExtensionValue<Code>(Extensions.NotJudged)!.Value.ShouldBe("no-norm");
    }

    [Fact]
    public void Map_NormFromMemory_SaysDemonstration() =>
        Mapped.Map(Samples.Clean).Trial("writing", Hand.Right).ReferenceRange.Single().Text.ShouldEndWith("DEMONSTRATION: not for patients.");

    private static decimal Number(string text) => decimal.Parse(text, CultureInfo.InvariantCulture);
}
