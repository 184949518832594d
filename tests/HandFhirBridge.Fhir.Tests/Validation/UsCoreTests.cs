using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>Resources of ours against profiles of US Core, as HL7 publishes them (github.com/HL7/US-Core, CC0).</summary>
public sealed class UsCoreTests
{
    private const string Result = "us-core-observation-clinical-result";
    private const string Simple = "us-core-simple-observation";
    private const string Screening = "us-core-observation-screening-assessment";

    /// <summary>Profile of ours → profiles of US Core that its resources also keep.</summary>
    private static readonly (string Ours, string[] UsCore)[] Kept =
    [
        (Canonicals.Trial, [Result, Simple, Screening]),
        (Canonicals.UncountedAttempt, [Result, Simple, Screening]),
        (Canonicals.Total, [Result, Simple, Screening]),
        (Canonicals.Panel, [Result, Simple, Screening]),
        (Canonicals.Dominance, [Simple]),
        (Canonicals.Report, ["us-core-diagnosticreport-note"]),
        (Canonicals.SetupResponse, ["us-core-questionnaireresponse"]),
        (Canonicals.Provenance, ["us-core-provenance"]),
    ];

    [Theory]
    [InlineData("6.1.0")]
    [InlineData("9.0.0")]
    public async System.Threading.Tasks.Task Validate_EveryExample_KeepsUsCore(string release)
    {
        var validator = await UsCoreDefinitions.ValidatorAsync(release, Kept.SelectMany(pair => pair.UsCore).Distinct());
        var resources = Repository.ExampleSessions().SelectMany(path => Mapped.Map(Mapped.Session(path)).Entry).Select(entry => entry.Resource!).ToList();

        var broken = from pair in Kept
                     from resource in Of(resources, pair.Ours)
                     from profile in pair.UsCore
                     from issue in validator.Validate(resource, UsCoreDefinitions.Url(profile)).Issue
                     where issue.Severity is OperationOutcome.IssueSeverity.Error or OperationOutcome.IssueSeverity.Fatal
                     select $"{pair.Ours} against {profile}: {issue.Details?.Text} at {issue.Expression.FirstOrDefault()}";
        broken.Distinct().ShouldBeEmpty();
        Kept.ShouldAllBe(pair => Of(resources, pair.Ours).Any());
    }

    // The profiles do bite: a trial without category or status keeps none of them.
    [Theory]
    [InlineData("6.1.0")]
    [InlineData("9.0.0")]
    public async System.Threading.Tasks.Task Validate_TrialWithoutCategory_BreaksUsCore(string release)
    {
        var validator = await UsCoreDefinitions.ValidatorAsync(release, [Result, Simple, Screening]);
        var trial = (Observation)Of(Mapped.Map(Mapped.Example("ashdenne-visit-1")).Entry.Select(entry => entry.Resource!), Canonicals.Trial).First();
        trial.Category.Clear();

        foreach (var profile in new[] { Result, Simple, Screening })
        {
            validator.Validate(trial, UsCoreDefinitions.Url(profile)).Success.ShouldBeFalse(profile);
        }
    }

    private static IEnumerable<Resource> Of(IEnumerable<Resource> resources, string profile) =>
        resources.Where(resource => resource.Meta?.Profile.Contains(profile) == true);
}
