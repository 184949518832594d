using System.Net;
using System.Net.Http.Headers;
using System.Text;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Http;

/// <summary>With a key file set, nobody gets in without a key, and nobody further than the key's scopes.</summary>
public sealed class SignInTests(SignInTests.LockedService service) : IClassFixture<SignInTests.LockedService>
{
    private const string State = "sessions/harbour-hand-clinic/HHC-004417-20260210";

    private const string Entry = "ledger/entries/harbour-hand-clinic/HHC-004417-20260210";

    private static readonly string Session = File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", "tarrowby-visit-1.json"));

    public static TheoryData<string, string> Doors => new()
    {
        { "POST", "sessions" },
        { "POST", "sessions/preview" },
        { "GET", State },
        { "GET", State + "/bundle" },
        { "GET", State + "/report" },
        { "GET", "courses?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417" },
        { "GET", "report/harbour-hand-clinic/HHC-004417-20260210" },
        { "GET", "report/harbour-hand-clinic/HHC-004417-20260210/a4.pdf" },
        { "GET", "patients?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417" },
        { "GET", "instruments/seven-task" },
        { "GET", "sites" },
        { "GET", "outcomes/summary.json" },
        { "GET", "outcomes/changes.csv" },
        { "GET", "ledger/entries" },
        { "GET", Entry },
        { "POST", "ledger/retry" },
        { "POST", Entry + "/retry" },
        { "POST", Entry + "/hold" },
        { "POST", Entry + "/resolve" },
        { "POST", State + "/withdrawal" },
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
    [InlineData("POST", "ledger/retry")]
    [InlineData("POST", Entry + "/retry")]
    [InlineData("POST", Entry + "/hold")]
    [InlineData("POST", Entry + "/resolve")]
    public async Task Acting_WithAReadersKey_IsForbidden(string method, string path)
    {
        using var answer = await SendAsync(method, path, service.Reader);

        answer.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
    }

    [Theory]
    [InlineData(State)]
    [InlineData(State + "/bundle")]
    [InlineData(State + "/report")]
    [InlineData("ledger/entries")]
    [InlineData(Entry)]
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

    [Fact]
    public async Task Ledger_ReadByReaderAndOperator_ActedOnByTheOperatorAlone()
    {
        using var read = await SendAsync("GET", "ledger/entries", service.Reader);
        using var looked = await SendAsync("GET", "ledger/entries", service.Operator);
        using var acted = await SendAsync("POST", "ledger/retry", service.Operator);
        using var session = await SendAsync("GET", State, service.Operator);

        read.StatusCode.ShouldBe(HttpStatusCode.OK);
        looked.StatusCode.ShouldBe(HttpStatusCode.OK);
        // Let in; the body is none of a decision.
        acted.StatusCode.ShouldBe(HttpStatusCode.UnprocessableEntity);
        session.StatusCode.ShouldBe(HttpStatusCode.Forbidden);
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

    // A link carries no key: whoever was shown the course may open its reports, and nothing else, in the same browser.
    [Fact]
    public async Task Report_OpenedFromACourse_NeedsNoKeyAndOpensNothingElse()
    {
        await Clinic.LoadPatientsAsync(service.Keeper, TestContext.Current.CancellationToken);
        // Keeps no cookies by itself, so that each request shows what it is given.
        using var browser = new HttpClient(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = service.Api.BaseAddress };
        using var asked = new HttpRequestMessage(HttpMethod.Get, new Uri("courses?system=https://harbour-hand-clinic.example/id/patient&value=HHC-004417", UriKind.Relative));
        asked.Headers.Authorization = new("Bearer", service.Reader);
        using var course = await browser.SendAsync(asked, TestContext.Current.CancellationToken);
        var cookie = course.Headers.GetValues("Set-Cookie").ShouldHaveSingleItem();
        cookie.ShouldContain("; path=/; samesite=strict; httponly");

        async Task<(HttpStatusCode Status, string? Type)> OpenAsync(string path, string? with)
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, new Uri(path, UriKind.Relative));
            request.Headers.Accept.ParseAdd("text/html");
            request.Headers.Add("Cookie", with is null ? [] : [with]);
            using var answer = await browser.SendAsync(request, TestContext.Current.CancellationToken);
            return (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType);
        }

        const string report = "report/harbour-hand-clinic/none";
        var held = cookie.Split(';')[0];
        (await OpenAsync(report, null)).ShouldBe((HttpStatusCode.Unauthorized, "text/html"));
        // Let in; there is no such report.
        (await OpenAsync(report, held)).ShouldBe((HttpStatusCode.NotFound, "text/html"));
        (await OpenAsync(report, held[..^9] + "AAAAAAAAA")).ShouldBe((HttpStatusCode.Unauthorized, "text/html"));
        (await OpenAsync(State, held)).Status.ShouldBe(HttpStatusCode.Unauthorized);
    }

    // A form takes the key; what it leaves in the browser opens the page, and the scope "outcomes" opens no patient's report.
    [Theory]
    [InlineData("reader", HttpStatusCode.Redirect, HttpStatusCode.NotFound)]
    [InlineData("analyst", HttpStatusCode.Redirect, HttpStatusCode.Forbidden)]
    [InlineData("submitter", HttpStatusCode.Unauthorized, HttpStatusCode.Unauthorized)]
    public async Task Outcomes_SignedInByAForm_AreForThoseWhoMaySeeThem(string who, HttpStatusCode signedIn, HttpStatusCode report)
    {
        using var browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = service.Api.BaseAddress };
        var cancellation = TestContext.Current.CancellationToken;
        using var before = await browser.GetAsync(new Uri("outcomes", UriKind.Relative), cancellation);
        (await before.Content.ReadAsStringAsync(cancellation)).ShouldContain("type=\"password\"");
        using var form = new FormUrlEncodedContent([new("key", who switch { "reader" => service.Reader, "analyst" => service.Analyst, _ => service.Submitter })]);

        using var answer = await browser.PostAsync(new Uri("outcomes/sign-in", UriKind.Relative), form, cancellation);
        using var page = await browser.GetAsync(new Uri("outcomes", UriKind.Relative), cancellation);
        using var opened = await browser.GetAsync(new Uri("report/harbour-hand-clinic/none", UriKind.Relative), cancellation);

        (before.StatusCode, answer.StatusCode, opened.StatusCode).ShouldBe((HttpStatusCode.Unauthorized, signedIn, report));
        // Nothing is gathered yet: that is said to those alone who may ask.
        page.StatusCode.ShouldBe(signedIn == HttpStatusCode.Redirect ? HttpStatusCode.NotFound : HttpStatusCode.Unauthorized);
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
        private HttpClient? keeper;

        public HttpClient Api => process!.Api;

        public HttpClient Record => process!.Record;

        /// <summary>The embedded record with a key that may read and write there.</summary>
        public HttpClient Keeper => keeper!;

        /// <summary>Its data and working directory.</summary>
        public string Folder => folder.Path;

        /// <summary>What the service wrote to standard output so far.</summary>
        public string Output => process!.Output;

        /// <summary>A key that may take everything out of the record.</summary>
        public string Exporter { get; private set; } = "";

        public string Reader { get; private set; } = "";

        public string Submitter { get; private set; } = "";

        public string Operator { get; private set; } = "";

        public string Analyst { get; private set; } = "";

        public async ValueTask InitializeAsync()
        {
            Reader = await KeyAsync("reader", "read");
            Submitter = await KeyAsync("submitter", "submit");
            Operator = await KeyAsync("ops-desk", "operate");
            Analyst = await KeyAsync("analyst", "outcomes");
            Exporter = await KeyAsync("exporter", "read", "operate");
            var keeping = await KeyAsync("keeper", "read", "submit");
            process = await ServiceProcess.StartAsync(
                folder.Path,
                [("Demonstration", "false"), ("Security__KeyFile", folder.File("keys.json"))],
                TestContext.Current.CancellationToken);
            keeper = new HttpClient(new SocketsHttpHandler()) { BaseAddress = Record.BaseAddress, DefaultRequestHeaders = { Authorization = new("Bearer", keeping) } };
        }

        public ValueTask DisposeAsync()
        {
            keeper?.Dispose();
            process?.Dispose();
            folder.Dispose();
            return ValueTask.CompletedTask;
        }

        private async Task<string> KeyAsync(string name, params string[] scopes)
        {
            var run = await CommandRun.StartAsync(folder.Path, ["keys", "add", name, .. scopes.SelectMany(s => new[] { "--scope", s })]);
            run.ExitCode.ShouldBe(0, run.Output + run.Error);
            var key = run.Output.Trim();
            File.ReadAllText(folder.File("keys.json")).ShouldNotContain(key, customMessage: "the key file holds hashes");
            return key;
        }
    }
}
