using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Tests.Mapping;

namespace HandFhirBridge.Fhir.Tests.Reading;

public sealed class ReadingProblemsTests
{
    public static TheoryData<string> Names => [.. Tampering.All.Keys];

    [Fact]
    public void Read_UntamperedSession_HasNoProblem()
    {
        var scored = Mapped.Score(Tampering.Session);
        ReadBack.ShouldBeTheSame(ReadBack.ReadWhole(Mapped.Map(scored)), scored);
    }

    // Wrong in one way: named, and nothing comes out that could be taken for a result.
    [Theory]
    [MemberData(nameof(Names))]
    public void Read_TamperedRecord_IsRefusedAndSaysWhy(string name)
    {
        var (code, change) = Tampering.All[name];
        var bundle = Mapped.Map(Tampering.Session);
        change(bundle);
        var read = ReadBack.Read(bundle);
        read.Value.ShouldBeNull();
        read.Problems.Select(p => p.Code).ShouldContain(code);
        read.Problems.ShouldAllBe(p => p.Message.EndsWith('.') && p.Remedy.EndsWith('.'));
    }

    // A withdrawn session is one fact, not one fault for each of its resources.
    [Fact]
    public void Read_WithdrawnReport_IsOneProblem()
    {
        var bundle = Mapped.Map(Tampering.Session);
        Tampering.All["withdrawn"].Change(bundle);
        ReadBack.Read(bundle).Problems.ShouldHaveSingleItem().Location.ShouldEndWith(".status");
    }

    [Fact]
    public void All_Kinds_AreReachedAndHaveCodesOfTheirOwn()
    {
        ReadingProblems.All.Select(k => k.Code).ShouldBeUnique();
        Tampering.All.Values.Select(t => t.Code).Distinct().Order().ShouldBe(ReadingProblems.All.Select(k => k.Code));
    }
}
