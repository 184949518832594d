using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class SessionMapperTests
{
    public static TheoryData<string> ExampleFiles => [.. Repository.ExampleSessions().Select(p => Path.GetFileNameWithoutExtension(p))];

    [Theory]
    [MemberData(nameof(ExampleFiles))]
    public void Map_SameInputTwice_GivesTheSameBytes(string example)
    {
        var session = Mapped.Example(example);
        FhirText.Of(Mapped.Map(session)).ShouldBe(FhirText.Of(Mapped.Map(Mapped.Read(SessionWriter.Write(session)))));
    }

    [Theory]
    [MemberData(nameof(ExampleFiles))]
    public void Map_ThroughStrictParser_GivesTheSameText(string example)
    {
        var text = FhirText.Of(Mapped.Map(Mapped.Example(example)));
        FhirText.Of(FhirText.Parse<Bundle>(text)).ShouldBe(text);
    }

    [Fact]
    public void Map_UnknownInstrument_Throws()
    {
        var session = Mapped.Example("tarrowby-visit-3");
        var scored = Mapped.Score(session) with { Session = session with { Instrument = new("seven-task", "99") } };
        Should.Throw<ArgumentException>(() => new SessionMapper(Mapped.Options).Map(scored, default, Mapped.Issued)).Message.ShouldContain("99");
    }
}
