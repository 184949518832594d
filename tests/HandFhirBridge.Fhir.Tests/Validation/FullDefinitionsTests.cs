using System.Text.Json.Nodes;
using Firely.Fhir.Validation;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Specification.Source;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>
/// Nothing is lost by what was left out or answered sooner: the library's own validator over the whole specification and
/// the unreduced package, with its own compiled schemas, finds no error that ours does not find at the same place.
/// </summary>
public sealed class FullDefinitionsTests
{
    private static readonly Validator Library = Create();

    // An address that cannot be taken apart has no verdict of the library to compare with: it throws, see the test below.
    public static TheoryData<string> Mistakes =>
        [.. SeededMistakes.All.Where(mistake => mistake.Kind != ValidationProblems.UnreadableReference).Select(mistake => mistake.Name)];

    [Theory]
    [MemberData(nameof(Mistakes))]
    public void Validate_SeededMistake_FindsWhatTheLibraryFinds(string name)
    {
        var mistake = SeededMistakes.All.Single(candidate => candidate.Name == name);
        var json = JsonNode.Parse(FhirText.Of(Mapped.Map(Mapped.Example("ashdenne-visit-1"))))!;
        mistake.Make(SeededMistakesTests.First(json, mistake.Profile));
        var bundle = (Bundle)FhirJsonDeserializer.OSTRICH.DeserializeResource(json.ToJsonString());

        // A reference's target of a wrong type or profile is reported at the target by the library, at the reference by ours.
        var library = Places(Library.Validate(bundle), bundle, mistake.Kind == ValidationProblems.WrongTarget);
        var ours = SessionValidator.Shared.Validate(bundle).Select(problem => (problem.Code, problem.Location));

        library.Except(ours).ShouldBeEmpty();
    }

    [Fact]
    public void Validate_ReferenceThatIsNoAddress_IsAFaultOnlyOurs()
    {
        var bundle = Mapped.Map(Mapped.Example("ashdenne-visit-1"));
        bundle.Entry.Select(entry => entry.Resource).OfType<Observation>().First(trial => trial.DerivedFrom.Count > 0).DerivedFrom[0].Reference = "http://[";

        Should.Throw<UriFormatException>(() => Library.Validate(bundle));
        SessionValidator.Shared.Validate(bundle).ShouldContain(problem => problem.Kind == ValidationProblems.UnreadableReference);
    }

    private static IEnumerable<(string Code, string Location)> Places(OperationOutcome outcome, Bundle bundle, bool withoutTargets) =>
        from issue in outcome.Issue
        where issue.Severity is OperationOutcome.IssueSeverity.Error or OperationOutcome.IssueSeverity.Fatal
        where !(withoutTargets && issue.Details!.Text!.StartsWith("Referenced resource", StringComparison.Ordinal))
        select (IssueTranslation.KindOf(issue).Kind.Code, IssueLocation.Of(issue, bundle));

    private static Validator Create()
    {
        var package = ProfilePackage.Files().Where(file => file.Path.Contains('-', StringComparison.Ordinal) && !file.Path.Contains('/', StringComparison.Ordinal))
            .Select(file => FhirJsonDeserializer.RECOVERABLE.DeserializeResource(System.Text.Encoding.UTF8.GetString(file.Content.Span)));
        var definitions = new CachedResolver(new MultiResolver(new InMemoryResourceResolver(package), Mapping.Core.Source));
        var settings = new ValidationSettings
        {
            FollowExtensionUrl = (_, _) => ExtensionUrlHandling.ErrorIfMissing,
            HandleValidateCodeServiceFailure = (_, _) => TerminologyServiceExceptionResult.Error,
        };
        return new Validator(definitions, new ClosedTerminology(new ClosedValueSets(new DefinitionSource())), settings: settings);
    }
}
