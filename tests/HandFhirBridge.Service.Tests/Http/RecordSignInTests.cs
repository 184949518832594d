using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Service.Auditing;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Settings;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>
/// Where the service has sign-in, its embedded record has it as well, and its own work with the record goes on. RFC 6750 (bearer tokens), RFC 9110
/// (401, 403), R4 http.html#security, R4 auditevent.html.
/// </summary>
public sealed class RecordSignInTests(SignInTests.LockedService service) : IClassFixture<SignInTests.LockedService>
{
    private const string Patient = """{"resourceType":"Patient","id":"guarded","gender":"female"}""";
    private const string Bundle = """{"resourceType":"Bundle","type":"batch","entry":[{"request":{"method":"GET","url":"Patient?_count=1"} }]}""";
    private const string Everybody = "reader submitter ops analyst exporter keeper";

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    // Which scopes let which request in: read to read, submit to write, both for Bundles and under a condition, read and operate to export.
    public static TheoryData<string, string, string> Requests => new()
    {
        { "GET", "Patient/none", "reader exporter keeper" },
        { "GET", "Patient?name=x", "reader exporter keeper" },
        { "FORM", "Patient/_search", "reader exporter keeper" },
        { "GET", "Patient/none/_history", "reader exporter keeper" },
        { "GET", "Patient/none/_history/1", "reader exporter keeper" },
        { "GET", "Patient/none/$everything", "reader exporter keeper" },
        { "GET", "Observation/$lastn?patient=none&category=x", "reader exporter keeper" },
        { "GET", "no/such/place/here", "keeper" },
        { "PUT", "Patient/guarded", "submitter keeper" },
        { "POST", "Patient", "submitter keeper" },
        { "POST-IF-NONE", "Patient", "keeper" },
        { "PUT", "Patient?identifier=urn:x|none", "keeper" },
        { "DELETE", "Patient/none", "submitter keeper" },
        { "BUNDLE", "", "keeper" },
        { "EXPORT", "$export?_type=Device", "exporter" },
        { "EXPORT", "Patient/$export?_type=Device", "exporter" },
        { "EXPORT", "Group/none/$export", "exporter" },
        { "GET", "$export-status/none", "exporter" },
        { "GET", "$export-status/none/1.Patient.ndjson", "exporter" },
        { "DELETE", "$export-status/none", "exporter" },
    };

    [Theory, MemberData(nameof(Requests))]
    public async Task Record_AskedByEach_LetsInThoseWithTheScopes(string method, string path, string allowed)
    {
        foreach (var who in Everybody.Split(' '))
        {
            using var answer = await SendAsync(method, path, who);

            var body = await answer.Content.ReadAsStringAsync(Cancellation);
            (answer.StatusCode == HttpStatusCode.Forbidden).ShouldBe(!allowed.Split(' ').Contains(who), $"{who} {answer.StatusCode} {body}");
            answer.StatusCode.ShouldNotBe(HttpStatusCode.Unauthorized);
            if (answer.StatusCode == HttpStatusCode.Forbidden)
            {
                FhirAnswer.Parse<OperationOutcome>(body).Issue.ShouldHaveSingleItem().Details!.Coding[0].Code.ShouldBe("HFB6011");
            }
        }

        foreach (var nobody in new[] { "nobody", "stranger" })
        {
            using var refused = await SendAsync(method, path, nobody);
            await refused.ShouldBeRefusedAsync(HttpStatusCode.Unauthorized, "HFB6010");
            // RFC 9110 section 15.5.2: a 401 carries a challenge.
            refused.Headers.WwwAuthenticate.ShouldContain(c => c.Scheme == "Bearer");
        }
    }

    // R4 http.html#capabilities: what a server can do is for everybody to see; capabilitystatement-definitions.html, rest.security.
    [Fact]
    public async Task Metadata_WithoutKey_SaysHowToSignIn()
    {
        var statement = FhirAnswer.Parse<CapabilityStatement>(await service.Record.GetStringAsync(new Uri("metadata", UriKind.Relative), Cancellation));

        var security = statement.Rest[0].Security.ShouldNotBeNull();
        security.Description!.ShouldContain("machine keys");
        security.Description!.ShouldNotContain("access tokens");
    }

    // R4 value set restful-security-service; RFC 6750 section 3: a resource server that wants a token says so.
    [Fact]
    public async Task Record_OfAServiceWithAnIssuer_WantsItsTokensAndSaysSo()
    {
        using var folder = new DataFolder();
        var settings = new BridgeSettings { DataDirectory = folder.Path };
        settings.Target.EmbeddedPort = 0;
        (settings.Security.Authority, settings.Security.Audience) = (new("http://127.0.0.1:9/issuer"), "bridge");
        using var trail = new AuditTrail(settings.AuditDirectory, TimeProvider.System);
        await using var record = await EmbeddedRecord.StartAsync(settings, trail, Cancellation);
        using var client = new HttpClient(new SocketsHttpHandler()) { BaseAddress = record.BaseUrl };

        using var answer = await client.GetAsync(new Uri("Patient", UriKind.Relative), Cancellation);
        var security = FhirAnswer.Parse<CapabilityStatement>(await client.GetStringAsync(new Uri("metadata", UriKind.Relative), Cancellation)).Rest[0].Security!;

        await answer.ShouldBeRefusedAsync(HttpStatusCode.Unauthorized, "HFB6010");
        answer.Headers.WwwAuthenticate.ShouldContain(c => c.Scheme == "Bearer");
        security.Service.ShouldHaveSingleItem().Coding.ShouldHaveSingleItem().Code.ShouldBe("OAuth");
        security.Description!.ShouldContain("http://127.0.0.1:9/issuer");
    }

    [Fact]
    public async Task Delivery_ToTheGuardedRecord_GoesOnAndLeavesNoLineOfItsOwn()
    {
        await Clinic.LoadPatientsAsync(service.Keeper, Cancellation);
        var key = await DeliverAsync("tarrowby-visit-1.json");

        (await Clinic.SearchAsync(service.Keeper, "Observation?category=http://hl7.org/fhir/sid/icf|d440&_count=200", Cancellation)).ShouldNotBeEmpty();
        Events().ShouldNotContain(e => e.Agent[0].Who!.Identifier!.Value == "embedded.record");
        Events().ShouldContain(e => e.Agent[0].Who!.Identifier!.Value == "keeper" && e.Subtype[0].Code == "transaction" && e.Entity.Count > 1);
        var secret = await File.ReadAllTextAsync(Path.Combine(service.Folder, "record.key"), Cancellation);
        service.Output.ShouldNotContain(secret);
        (OperatingSystem.IsWindows() ? UnixFileMode.UserRead | UnixFileMode.UserWrite : File.GetUnixFileMode(Path.Combine(service.Folder, "record.key"))).ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite);
        key.ShouldNotBeEmpty();
    }

    // R4 auditevent.html; as every other reading and writing of a patient's data.
    [Fact]
    public async Task Calls_AboutAPatient_LeaveAnEventThatNamesWhoAndWhom()
    {
        using var written = await SendAsync("PUT", "Patient/watched", "submitter", """{"resourceType":"Patient","id":"watched","name":[{"family":"Quillshade"}],"identifier":[{"system":"urn:watched","value":"1"}]}""");
        using var read = await SendAsync("GET", "Patient/watched", "reader");
        using var found = await SendAsync("GET", "Patient?identifier=urn:watched|1", "exporter");
        using var removed = await SendAsync("DELETE", "Patient/watched", "submitter");
        using var metadata = await SendAsync("GET", "metadata", "reader");

        Events().Where(e => e.Entity.Any(n => n.What?.Reference == "Patient/watched") || e.Entity[0].Name == "/fhir/Patient/watched").Select(e => $"{e.Agent[0].Who!.Identifier!.Value} {e.Subtype[0].Code} {e.Action} {e.Outcome} {e.Entity[0].Name}").ShouldBe(
        [
            "submitter update U N0 /fhir/Patient/watched", "reader read R N0 /fhir/Patient/watched", "exporter search-type E N0 /fhir/Patient", "submitter delete D N0 /fhir/Patient/watched",
        ]);
        Events().ShouldNotContain(e => e.Entity[0].Name == "/fhir/metadata");
        string.Concat(Lines()).ShouldNotContain("Quillshade");
    }

    // The command has no key of its own: it reads the one that lies beside the record.
    [Fact]
    public async Task Gather_OfTheGuardedRecord_ReadsByExportWhatPagesGive()
    {
        await Clinic.LoadPatientsAsync(service.Keeper, Cancellation);
        await DeliverAsync("lindqvale-visit-1.json");
        File.WriteAllText(Path.Combine(service.Folder, "handfhirbridge.json"), $$"""
            { "DataDirectory": "{{service.Folder}}", "Target": { "EmbeddedPort": {{service.Record.BaseAddress!.Port}} }, "Security": { "KeyFile": "{{Path.Combine(service.Folder, "keys.json")}}" } }
            """);

        var exported = await GatherAsync("export");
        var searched = await GatherAsync("search", "--full", "--search");

        exported.Keys.ShouldBe(searched.Keys, ignoreOrder: true);
        exported["Observation.ndjson"].ShouldNotBeEmpty();
        foreach (var (file, lines) in exported)
        {
            lines.Except(searched[file]).ShouldBeEmpty(file);
            searched[file].Except(lines).ShouldBeEmpty(file);
            lines.Count.ShouldBe(searched[file].Count, file);
        }

        // Digits of the document, and not those of a number read and written again.
        exported["Observation.ndjson"].ShouldContain(line => line.Contains("\"value\":" + Seconds("lindqvale-visit-1.json"), StringComparison.Ordinal));

        // The next export tells of a deletion, which pages never do.
        var gone = (string)JsonNode.Parse(exported["Observation.ndjson"][0])!["id"]!;
        using var deleted = await SendAsync("DELETE", $"Observation/{gone}", "keeper");
        deleted.IsSuccessStatusCode.ShouldBeTrue();
        (await GatherAsync("export"))["Observation.ndjson"].Count.ShouldBe(exported["Observation.ndjson"].Count - 1);
    }

    private static string Seconds(string example) => JsonNode.Parse(File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", example)))!["trials"]!.AsArray()
        .Select(t => t!["seconds"]?.ToJsonString()).First(s => s?.EndsWith('0') == true)!;

    private async Task<Dictionary<string, List<string>>> GatherAsync(string method, params string[] options)
    {
        var run = await CommandRun.StartAsync(service.Folder, ["gather", .. options]);
        run.ExitCode.ShouldBe(0, run.Output + run.Error);
        run.Output.ShouldContain($"new or changed by {method};");
        return Directory.GetFiles(Path.Combine(service.Folder, "outcomes", "gathered", "default"), "*.ndjson").ToDictionary(f => Path.GetFileName(f), f => File.ReadAllLines(f).Order(StringComparer.Ordinal).ToList());
    }

    private async Task<string> DeliverAsync(string example)
    {
        using var api = new HttpClient(new SocketsHttpHandler()) { BaseAddress = service.Api.BaseAddress, DefaultRequestHeaders = { Authorization = service.Keeper.DefaultRequestHeaders.Authorization } };
        var key = await Clinic.SubmitAsync(api, await File.ReadAllTextAsync(Repository.Example("sessions", "harbour-hand-clinic", example), Cancellation), Cancellation);
        await Clinic.DeliveredAsync(api, key, Cancellation);
        return key;
    }

    private async Task<HttpResponseMessage> SendAsync(string method, string path, string who, string body = Patient)
    {
        using var request = new HttpRequestMessage(
            method switch { "FORM" or "BUNDLE" or "POST-IF-NONE" => HttpMethod.Post, "EXPORT" => HttpMethod.Get, _ => new HttpMethod(method) }, new Uri(service.Record.BaseAddress!, path));
        request.Content = method switch
        {
            "FORM" => new FormUrlEncodedContent([new("name", "x")]),
            "BUNDLE" => Json(Bundle),
            "PUT" or "POST" or "POST-IF-NONE" => Json(body),
            _ => null,
        };
        if (method == "EXPORT")
        {
            request.Headers.Add("Prefer", "respond-async");
        }
        else if (method == "POST-IF-NONE")
        {
            request.Headers.Add("If-None-Exist", "identifier=urn:x|none");
        }

        request.Headers.Authorization = who switch
        {
            "nobody" => null,
            "stranger" => new("Bearer", "hfb.reader." + new string('0', 64)),
            "keeper" => service.Keeper.DefaultRequestHeaders.Authorization,
            _ => new("Bearer", who switch { "reader" => service.Reader, "submitter" => service.Submitter, "ops" => service.Operator, "analyst" => service.Analyst, _ => service.Exporter }),
        };
        return await service.Record.SendAsync(request, Cancellation);
    }

    private static StringContent Json(string body) => new(body, Encoding.UTF8, new MediaTypeHeaderValue("application/fhir+json"));

    private List<AuditEvent> Events() => [.. Lines().Select(FhirAnswer.Parse<AuditEvent>)];

    private IEnumerable<string> Lines() => Directory.EnumerateFiles(Path.Combine(service.Folder, "audit"), "AuditEvent-*.ndjson").Order(StringComparer.Ordinal).SelectMany(file =>
    {
        using var reader = new StreamReader(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite));
        return reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
    });
}
