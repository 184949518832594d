using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed partial class SeededMistakesTests
{
    private static readonly string Good = FhirText.Of(Mapped.Map(Mapped.Example("ashdenne-visit-1")));

    public static TheoryData<string> Names => [.. SeededMistakes.All.Select(mistake => mistake.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void ValidateJson_SeededMistake_IsNamedAtItsPlace(string name)
    {
        // What is remembered of the good bundle hides no mistake in it.
        SessionValidator.Shared.ValidateJson(Encoding.UTF8.GetBytes(Good)).ShouldBeEmpty();
        var mistake = SeededMistakes.All.Single(candidate => candidate.Name == name);
        var bundle = JsonNode.Parse(Good)!;
        var at = EntryOf(bundle, mistake.Profile);
        var resource = bundle["entry"]![at]!["resource"]!.AsObject();
        mistake.Make(resource);

        var problems = SessionValidator.Shared.ValidateJson(Encoding.UTF8.GetBytes(bundle.ToJsonString()));

        var place = LinkId().Replace(mistake.Location, match => $"[{SeededMistakes.Place(resource, match.Groups[1].Value)}]");
        problems.ShouldContain(
            problem => problem.Kind == mistake.Kind && problem.Severity == mistake.Kind.Severity && problem.Location == $"Bundle.entry[{at}].resource{place}",
            string.Join(Environment.NewLine, problems));
    }

    [Fact]
    public void Validate_MistakeInTrial_NamesTaskAndHand()
    {
        var bundle = Mapped.Map(Mapped.Example("ashdenne-visit-1"));
        var trial = bundle.Entry.Select(entry => entry.Resource).OfType<Observation>().First(observation => observation.Code.Coding[0].Code == "simulated-feeding-left");
        trial.BodySite = null;

        var problem = SessionValidator.Shared.Validate(bundle).First(candidate => candidate.Kind == ValidationProblems.WrongCount);

        problem.Message.ShouldStartWith("Trial of task simulated-feeding with the left hand: ");
    }

    internal static JsonObject First(JsonNode bundle, string profile) => bundle["entry"]![EntryOf(bundle, profile)]!["resource"]!.AsObject();

    private static int EntryOf(JsonNode bundle, string profile) =>
        bundle["entry"]!.AsArray().Select((entry, at) => (entry, at))
            .First(placed => ((string?)placed.entry!["resource"]!["meta"]!["profile"]![0])!.EndsWith('/' + profile, StringComparison.Ordinal)).at;

    [GeneratedRegex(@"\[\{(.*?)\}\]")]
    private static partial Regex LinkId();
}
