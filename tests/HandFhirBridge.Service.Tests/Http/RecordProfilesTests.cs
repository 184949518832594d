using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using static Hl7.Fhir.Model.OperationOutcome;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>
/// <c>$validate</c> of the embedded record against the package's profiles (http://hl7.org/fhir/OperationDefinition/Resource-validate, as of R4;
/// quoted are its words). What is valid and what is not stands in the package: its examples, and the cardinalities, codes and invariants of its profiles.
/// </summary>
public sealed class RecordProfilesTests(RecordProfilesTests.OpenRecord record) : IClassFixture<RecordProfilesTests.OpenRecord>
{
    private const string Profiles = "https://handfhirbridge.example/fhir/StructureDefinition/";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public static TheoryData<string> Examples => [.. ProfilePackage.Paths.Where(path => path.StartsWith("example/", StringComparison.Ordinal))];

    [Theory, MemberData(nameof(Examples))]
    public async Task Validate_AnExampleOfThePackage_FindsNothingAndNamesTheProfile(string path)
    {
        var resource = JsonNode.Parse(ProfilePackage.Read(path).Span)!;

        var outcome = await ValidateAsync(resource);

        var issue = outcome.Issue.ShouldHaveSingleItem();
        issue.Severity.ShouldBe(IssueSeverity.Information);
        issue.Details!.Text!.ShouldContain((string)resource["meta"]!["profile"]![0]!);
    }

    // Each is sound by base R4: without its profile nothing is found.
    [Theory]
    [InlineData("code", """{"text":"card turning"}""", "Observation")] // a task, 1..1 in the profile with a fixed system
    [InlineData("valueQuantity", """{"value":4.2,"unit":"min","system":"http://unitsofmeasure.org","code":"min"}""", "Observation.value")] // seconds
    [InlineData("bodySite", null, "Observation")] // the hand
    public async Task Validate_AgainstTheClaimedProfile_FindsWhatBaseR4LetsPass(string element, string? value, string place)
    {
        var trial = JsonNode.Parse(ProfilePackage.Read("example/Observation-example-trial-completed.json").Span)!.AsObject();
        trial.Remove(element);
        if (value is not null)
        {
            trial[element] = JsonNode.Parse(value);
        }

        var claimed = await ValidateAsync(trial);
        trial.Remove("meta");
        var unclaimed = await ValidateAsync(trial);
        var nominated = await ValidateAsync(trial, "?profile=" + Uri.EscapeDataString(Profiles + "hfb-trial|0.1.0"));

        var errors = claimed.Issue.Where(issue => issue.Severity == IssueSeverity.Error).ToList();
        errors.ShouldNotBeEmpty();
        errors.ShouldContain(issue => issue.Expression.Any(expression => expression!.StartsWith(place, StringComparison.Ordinal)));
        unclaimed.Issue.ShouldAllBe(issue => issue.Severity == IssueSeverity.Information);
        nominated.Issue.Where(issue => issue.Severity == IssueSeverity.Error).Select(Said).ShouldBe(errors.Select(Said), ignoreOrder: true);
    }

    // "If a profile is nominated, and the server cannot validate against the nominated profile, it SHALL return an error".
    [Theory]
    [InlineData("hfb-report")] // of another type
    [InlineData("hfb-trial|9.9.9")] // another version
    [InlineData("hfb-ext-outcome")] // no profile of a resource
    public async Task Validate_AgainstWhatIsNoProfileOfTheType_IsRefused(string profile)
    {
        var trial = JsonNode.Parse(ProfilePackage.Read("example/Observation-example-trial-completed.json").Span)!;

        using var answer = await SendAsync(trial, "?profile=" + Uri.EscapeDataString(Profiles + profile));

        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await answer.Content.ReadAsStringAsync(Cancellation)).ShouldContain(Profiles + profile);
    }

    // mode profile: "checks an existing resource (must be nominated by id, not provided as a parameter) as valid against the nominated profile".
    [Fact]
    public async Task Validate_WhatStandsAgainstAnotherProfile_FindsItsFaults()
    {
        var total = ProfilePackage.Read("example/Observation-example-total.json");
        using var body = Fhir(total.ToArray());
        using var put = await record.Client.PutAsync(new Uri("Observation/example-total", UriKind.Relative), body, Cancellation);
        put.EnsureSuccessStatusCode();

        async Task<OperationOutcome> AskAsync(string profile) => FhirAnswer.Parse<OperationOutcome>(
            await record.Client.GetStringAsync(new Uri($"Observation/example-total/$validate?mode=profile&profile={Uri.EscapeDataString(Profiles + profile)}", UriKind.Relative), Cancellation));

        (await AskAsync("hfb-total")).Issue.ShouldAllBe(issue => issue.Severity == IssueSeverity.Information);
        (await AskAsync("hfb-dominance")).Issue.ShouldContain(issue => issue.Severity == IssueSeverity.Error);
    }

    // R4 capabilitystatement-definitions.html, rest.resource.supportedProfile.
    [Fact]
    public async Task Metadata_OfTheRecord_NamesTheProfiles()
    {
        var statement = FhirAnswer.Parse<CapabilityStatement>(await record.Client.GetStringAsync(new Uri("metadata", UriKind.Relative), Cancellation));

        statement.Rest[0].Resource.Where(r => r.SupportedProfile.Any()).Select(r => r.Type).ShouldBe(["Device", "DiagnosticReport", "Observation", "Provenance", "QuestionnaireResponse"], ignoreOrder: true);
        statement.Rest[0].Resource.Single(r => r.Type == "DiagnosticReport").SupportedProfile.ShouldBe([Profiles + "hfb-report|0.1.0"]);
    }

    private static (string?, string) Said(IssueComponent issue) => (issue.Details!.Text, string.Join(' ', issue.Expression));

    private async Task<OperationOutcome> ValidateAsync(JsonNode resource, string query = "")
    {
        using var answer = await SendAsync(resource, query);
        var text = await answer.Content.ReadAsStringAsync(Cancellation);
        answer.StatusCode.ShouldBe(HttpStatusCode.OK, text);
        return FhirAnswer.Parse<OperationOutcome>(text);
    }

    private async Task<HttpResponseMessage> SendAsync(JsonNode resource, string query)
    {
        using var body = Fhir(Encoding.UTF8.GetBytes(resource.ToJsonString()));
        return await record.Client.PostAsync(new Uri($"{resource["resourceType"]}/$validate{query}", UriKind.Relative), body, Cancellation);
    }

    private static ByteArrayContent Fhir(byte[] json) => new(json) { Headers = { ContentType = new MediaTypeHeaderValue("application/fhir+json") } };

    /// <summary>The record of a demonstration, without the rest of the service.</summary>
    public sealed class OpenRecord : IAsyncLifetime
    {
        private readonly DataFolder folder = new();
        private AuditTrail trail = null!;
        private EmbeddedRecord record = null!;

        public HttpClient Client { get; private set; } = null!;

        public async ValueTask InitializeAsync()
        {
            var settings = new BridgeSettings { DataDirectory = folder.Path, Demonstration = true };
            settings.Target.EmbeddedPort = 0;
            trail = new AuditTrail(settings.AuditDirectory, TimeProvider.System);
            record = await EmbeddedRecord.StartAsync(settings, trail, Cancellation);
            Client = new HttpClient(new SocketsHttpHandler()) { BaseAddress = record.BaseUrl };
        }

        public async ValueTask DisposeAsync()
        {
            Client.Dispose();
            await record.DisposeAsync();
            trail.Dispose();
            folder.Dispose();
        }
    }
}
