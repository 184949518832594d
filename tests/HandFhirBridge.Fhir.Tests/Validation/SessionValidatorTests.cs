using System.Text;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed class SessionValidatorTests
{
    [Fact]
    public async System.Threading.Tasks.Task CreateAsync_ExamplesOfThePackage_AreAccepted() =>
        (await SessionValidator.CreateAsync(TestContext.Current.CancellationToken)).ShouldBeSameAs(SessionValidator.Shared);

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("[]")]
    [InlineData("{\"status\":\"final\"}")]
    [InlineData("{\"resourceType\":\"Obsrevation\"}")]
    public void ValidateJson_NotFhir_IsOneError(string text) =>
        SessionValidator.Shared.ValidateJson(Encoding.UTF8.GetBytes(text)).ShouldHaveSingleItem().Kind.ShouldBe(ValidationProblems.NotFhirJson);

    [Fact]
    public void Validate_EntryTwice_IsNamed()
    {
        var bundle = Mapped.Map(Mapped.Example("ashdenne-visit-1"));
        bundle.Entry[5].FullUrl = bundle.Entry[4].FullUrl;

        SessionValidator.Shared.Validate(bundle).ShouldContain(problem => problem.Kind == ValidationProblems.EntryTwice && problem.Location == "Bundle.entry[5].fullUrl");
    }

    [Fact]
    public void Validate_EntryWithoutResource_IsNamed()
    {
        var bundle = Mapped.Map(Mapped.Example("ashdenne-visit-1"));
        bundle.Entry.Add(new Bundle.EntryComponent { FullUrl = "urn:uuid:6f9619ff-8b86-5011-b42d-00cf4fc964ff" });

        SessionValidator.Shared.Validate(bundle).ShouldContain(problem => problem.Kind == ValidationProblems.EntryEmpty && problem.Location == $"Bundle.entry[{bundle.Entry.Count - 1}]");
    }

    [Fact]
    public void Validate_ResourceThatIsNoPartOfASession_IsRefused()
    {
        var bundle = Mapped.Map(Mapped.Example("ashdenne-visit-1"));
        bundle.Entry.Add(new Bundle.EntryComponent { FullUrl = "urn:uuid:6f9619ff-8b86-5011-b42d-00cf4fc964ff", Resource = new Patient { Active = true } });

        var problems = SessionValidator.Shared.Validate(bundle);

        problems.ShouldContain(problem => problem.Kind == ValidationProblems.ProfileNotClaimed);
        problems.ShouldContain(problem => problem.Kind == ValidationProblems.UnknownProfile);
    }

    // One validator shared by two threads while still cold has wrongly refused valid bundles; each round starts cold.
    [Fact]
    public void Validate_ColdValidatorOnManyThreads_FindsNothing()
    {
        var bundles = Repository.ExampleSessions().Take(4).Select(path => Mapped.Map(Mapped.Session(path))).ToArray();
        for (var round = 0; round < 3; round++)
        {
            var cold = new SessionValidator();
            var problems = bundles.AsParallel().WithDegreeOfParallelism(bundles.Length).SelectMany(bundle => cold.ValidateFully(bundle)).ToList();
            problems.ShouldBeEmpty();
        }
    }
}
