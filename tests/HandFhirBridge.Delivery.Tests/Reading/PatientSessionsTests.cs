using HandFhirBridge.Delivery.Reading;
using HandFhirBridge.Delivery.Tests.Servers;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Delivery.Tests.Reading;

/// <summary>The sessions of one patient are the same however a server searches, and never another patient's.</summary>
public sealed class PatientSessionsTests
{
    private static readonly Uri Base = new("http://odd.example/fhir/");
    private static readonly (string, string)[] Categories = [(CodeSystems.Icf, "d440"), (CodeSystems.ObservationCategory, "survey")];

    public static TheoryData<SearchWay> Ways => [.. Enum.GetValues<SearchWay>()];

    [Theory]
    [MemberData(nameof(Ways))]
    public async Task Read_HoweverTheServerSearches_GivesThePatientsSessionsWhole(SearchWay way)
    {
        List<Resource> mine = [.. Held("S-1", "mine", way), .. Held("S-2", "mine", way, repeated: true)];
        List<Resource> held = [.. Held("S-3", "other", way), .. mine];
        using var server = new OddSearches([.. held.DistinctBy(r => $"{r.TypeName}/{r.Id}")], way);
        using var http = new HttpClient(server);

        var sessions = await new PatientSessions(new RecordReader(http, Base)).ReadAsync("mine", CodeSystems.Measure, MeasureCodes.Report, Categories, TestContext.Current.CancellationToken);

        sessions.Count.ShouldBe(2);
        // Provenance speaks of a session, it is not of it.
        sessions.SelectMany(s => s.Resources).Select(Name).Distinct().Order(StringComparer.Ordinal)
            .ShouldBe(mine.Where(r => r is not Provenance && !IsSoftware(r)).Select(Name).Distinct().Order(StringComparer.Ordinal));
        sessions.ShouldAllBe(s => s.Resources.OfType<Observation>().All(o => RecordReader.IsOf(o.Subject, "mine")));
        if (way is SearchWay.Plain or SearchWay.IgnoresParameters)
        {
            // Three searches; one by one only what they do not bring: devices.
            server.Asked.Count(a => a.AbsolutePath.Split('/').Length == 4).ShouldBeLessThanOrEqualTo(2);
        }
    }

    // A token names a patient's reader: it goes to no other server because an answer says so.
    [Fact]
    public async Task Read_NextPageOnAnotherServer_IsRefused()
    {
        using var http = new HttpClient(new NextElsewhere());

        var refused = await Should.ThrowAsync<RecordReadException>(() => new PatientSessions(new RecordReader(http, Base))
            .ReadAsync("mine", CodeSystems.Measure, MeasureCodes.Report, Categories, TestContext.Current.CancellationToken));

        refused.Message.ShouldContain("elsewhere.example");
    }

    private static bool IsSoftware(Resource resource) => resource is Device device && device.Identifier.Any(i => i.System == IdentifierSystems.Software);

    private static string Name(Resource resource) => $"{resource.TypeName}/{resource.Id}";

    private static List<Resource> Held(string id, string patient, SearchWay way, bool repeated = false)
    {
        var json = System.Text.Encoding.UTF8.GetString(MappedSessions.Session(id, repeated: repeated).Bundle.Span);
        // A server puts addresses in the place of a transaction's own names.
        foreach (var entry in new FhirJsonDeserializer().Deserialize<Bundle>(json).Entry)
        {
            json = json.Replace($"\"reference\":\"{entry.FullUrl}\"", $"\"reference\":\"{(way == SearchWay.AbsoluteReferences ? Base : "")}{entry.Request!.Url}\"", StringComparison.Ordinal);
        }

        var resources = new FhirJsonDeserializer().Deserialize<Bundle>(json).Entry.Select(e => e.Resource!).ToList();
        foreach (var subject in resources.Select(r => r switch { Observation o => o.Subject, DiagnosticReport d => d.Subject, QuestionnaireResponse q => q.Subject, _ => null }).OfType<ResourceReference>())
        {
            subject.Reference = way == SearchWay.AbsoluteReferences ? $"{Base}Patient/{patient}" : $"Patient/{patient}";
        }

        return resources;
    }

    private sealed class NextElsewhere : HttpMessageHandler
    {
        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken) => Task.FromResult(new HttpResponseMessage
        {
            Content = new StringContent("""{"resourceType": "Bundle", "type": "searchset", "link": [{"relation": "next", "url": "http://elsewhere.example/fhir/next"}]}"""),
        });
    }
}
