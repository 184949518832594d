using FsCheck;
using FsCheck.Fluent;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Tests.Mapping;

namespace HandFhirBridge.Fhir.Tests.Reading;

public sealed class GeneratedRoundTripTests
{
    // What the door accepts comes back digit for digit and word for word, whatever ids the server gave.
    [Fact]
    public void Read_AnySessionTheDoorAccepts_GivesTheSameScoredSession() => Prop.ForAll(
        (from session in GeneratedSessions.All
         from demonstration in Gen.Elements(true, false)
         from snomed in Gen.Elements(true, false)
         from assigned in Gen.Elements(true, false)
         select (session, demonstration, snomed, assigned)).ToArbitrary(),
        drawn => Check(drawn.session, drawn.demonstration, drawn.snomed, drawn.assigned))
        .Check(Config.QuickThrowOnFailure.WithMaxTest(200));

    private static void Check(Session generated, bool demonstration, bool snomed, bool assigned)
    {
        var session = Mapped.Read(SessionWriter.Write(generated));
        var scored = Mapped.Score(session, demonstration);
        var bundle = Mapped.Map(scored, Mapped.Options with { SnomedLicensed = snomed });
        ReadBack.ShouldBeTheSame(ReadBack.ReadWhole(assigned ? AssignedIds.Of(bundle, "https://record.example/fhir/{0}/{1}") : bundle), scored);
    }
}
