using System.Net;
using System.Net.Http.Headers;
using System.Text;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>With a key file set, nobody gets in without a key, and nobody further than the key's scopes.</summary>
public sealed class SignInTests(SignInTests.LockedService service) : IClassFixture<SignInTests.LockedService>
{
    private const string State = "sessions/harbour-hand-clinic/HHC-004417-20260210";

    private static readonly string Session = File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"));

    public static TheoryData<string, string> Doors => new()
    {
        { "POST", "sessions" },
        { "POST", "sessions/preview" },
        { "GET", State },
        { "GET", State + "/bundle" },
        { "GET", State + "/report" },
        { "GET", "patients?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417" },
        { "GET", "instruments/seven-task" },
        { "GET", "sites" },
        { "GET", "no/such/door" },
    };

    // RFC 9110 section 15.5.2: a 401 carries a challenge.
    [Theory, MemberData(nameof(Doors))]
    public async Task Call_WithoutKey_IsChallenged(string method, string path)
    {
        using var answer = await SendAsync(method, path, null);

        answer.StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
        answer.Headers.WwwAuthenticate.ShouldContain(c => c.Scheme == "Bearer");
    }

    [Theory, MemberData(nameof(Doors))]
    public async Task Call_WithAKeyNobodyMade_IsChallenged(string method, string path)
    {
        using var answer = await SendAsync(method, path, "hfb.reader." + new string('0', 64));

        answer.StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
    }

    [Theory]
    [InlineData("POST", "sessions")]
    [InlineData("POST", "sessions/preview")]
    public async Task Submitting_WithAReadersKey_IsForbidden(string method, string path)
    {
        using var answer = await SendAsync(method, path, service.Reader);

        answer.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
    }

    [Theory]
    [InlineData(State)]
    [InlineData(State + "/bundle")]
    [InlineData(State + "/report")]
    [InlineData("patients?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417")]
    public async Task Reading_WithASubmittersKey_IsForbidden(string path)
    {
        using var answer = await SendAsync("GET", path, service.Submitter);

        answer.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
    }

    [Fact]
    public async Task Call_WithTheRightKey_GoesThrough()
    {
        using var accepted = await SendAsync("POST", "sessions", service.Submitter);
        using var state = await SendAsync("GET", State, service.Reader);

        accepted.StatusCode.ShouldBe(HttpStatusCode.Accepted);
        state.StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Theory]
    [InlineData("health/live")]
    [InlineData("health/ready")]
    [InlineData("about")]
    public async Task Open_WithoutKey_IsAnsweredWithoutPatientData(string path)
    {
        using var answer = await SendAsync("GET", path, null);

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        (await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).ShouldNotContain("HHC-");
    }

    private async Task<HttpResponseMessage> SendAsync(string method, string path, string? key)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), new Uri(path, UriKind.Relative));
        request.Headers.Authorization = key is null ? null : new AuthenticationHeaderValue("Bearer", key);
        request.Content = method == "POST" ? new StringContent(Session, Encoding.UTF8, "application/json") : null;
        return await service.Api.SendAsync(request, TestContext.Current.CancellationToken);
    }

    /// <summary>A service that is no demonstration, with a reader's and a submitter's key made by the program itself.</summary>
    public sealed class LockedService : IAsyncLifetime
    {
        private readonly DataFolder folder = new();
        private ServiceProcess? process;

        public HttpClient Api => process!.Api;

        public string Reader { get; private set; } = "";

        public string Submitter { get; private set; } = "";

        public async ValueTask InitializeAsync()
        {
            Reader = await KeyAsync("reader", "read");
            Submitter = await KeyAsync("submitter", "submit");
            process = await ServiceProcess.StartAsync(
                folder.Path,
                [("Demonstration", "false"), ("Security__KeyFile", folder.File("keys.json"))],
                TestContext.Current.CancellationToken);
        }

        public ValueTask DisposeAsync()
        {
            process?.Dispose();
            folder.Dispose();
            return ValueTask.CompletedTask;
        }

        private async Task<string> KeyAsync(string name, string scope)
        {
            var run = await CommandRun.StartAsync(folder.Path, "keys", "add", name, "--scope", scope);
            run.ExitCode.ShouldBe(0, run.Output + run.Error);
            var key = run.Output.Trim();
            File.ReadAllText(folder.File("keys.json")).ShouldNotContain(key, customMessage: "the key file holds hashes");
            return key;
        }
    }
}
