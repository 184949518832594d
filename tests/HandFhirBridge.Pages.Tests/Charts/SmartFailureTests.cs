using System.Net;

namespace HandFhirBridge.Pages.Tests.Charts;

/// <summary>
/// SMART App Launch 2.2 (https://hl7.org/fhir/smart-app-launch/app-launch.html): what does not fit gives no access, and a page in plain
/// words that says what to do.
/// </summary>
public sealed class SmartFailureTests : IClassFixture<SmartRecord>
{
    private readonly SmartRecord record;

    public SmartFailureTests(SmartRecord record)
    {
        Assert.SkipWhen(SmartRecord.Missing is not null, SmartRecord.Missing ?? "");
        this.record = record;
    }

    [Theory]
    [InlineData("https://record.elsewhere.example/fhir", HttpStatusCode.Forbidden, "HFB6041")]
    [InlineData("", HttpStatusCode.Forbidden, "HFB6041")]
    [InlineData("without sign-in", HttpStatusCode.BadGateway, "HFB6042")]
    [InlineData("other aud", HttpStatusCode.Forbidden, "HFB6045")]
    public async Task Launch_FromARecordThatDoesNotFit_IsRefused(string iss, HttpStatusCode status, string code)
    {
        using var user = new UserAgent();
        var named = iss switch { "other aud" => record.OtherName, "without sign-in" => record.WithoutSignIn, _ => iss };

        var answer = await user.GoAsync(new(record.Service, $"chart/launch?iss={Uri.EscapeDataString(named)}&launch=x"));

        ShouldSay(answer, status, code);
    }

    [Theory]
    [InlineData("refuse", HttpStatusCode.Forbidden, "HFB6044")]
    [InlineData("less", HttpStatusCode.Forbidden, "HFB6046")]
    [InlineData("nobody", HttpStatusCode.Forbidden, "HFB6047")]
    public async Task SignIn_WithoutWhatACourseNeeds_IsRefusedAndLeavesNoAccess(string mode, HttpStatusCode status, string code)
    {
        using var user = new UserAgent();

        var answer = await user.LaunchAsync(record, mode);

        ShouldSay(answer, status, code);
        (await user.CourseAsync(record)).Status.ShouldBe(HttpStatusCode.Unauthorized);
    }

    [Theory]
    [InlineData("?code=stolen&state=made-up")]
    [InlineData("?code=stolen")]
    [InlineData("")]
    public async Task Answer_WithoutAStateOfOurs_IsRefused(string query)
    {
        using var user = new UserAgent();

        ShouldSay(await user.GoAsync(new(record.Service, $"chart/callback{query}")), HttpStatusCode.BadRequest, "HFB6043");
    }

    [Fact]
    public async Task Answer_InAnotherBrowserOrFromAnotherIssuerOrTwice_IsRefused()
    {
        using var user = new UserAgent();
        using var other = new UserAgent();
        var patient = await record.PatientAsync("HHC-004538");
        var answer = (await user.LaunchAsync(record, "allow", patient, through: false)).At;

        ShouldSay(await other.GoAsync(answer), HttpStatusCode.BadRequest, "HFB6043");
        ShouldSay(await user.GoAsync(new(answer.OriginalString[..answer.OriginalString.IndexOf("&iss=", StringComparison.Ordinal)] + "&iss=https://login.elsewhere.example")), HttpStatusCode.Forbidden, "HFB6049");
        (await user.GoAsync(answer)).Status.ShouldBe(HttpStatusCode.OK);
        (await user.CourseAsync(record)).Status.ShouldBe(HttpStatusCode.OK);
        (await other.CourseAsync(record)).Status.ShouldBe(HttpStatusCode.Unauthorized);
        ShouldSay(await user.GoAsync(answer), HttpStatusCode.BadRequest, "HFB6043");
    }

    [Fact]
    public async Task Access_AfterTheTokensEnd_IsOver()
    {
        using var user = new UserAgent();
        (await user.LaunchAsync(record, "brief", await record.PatientAsync("HHC-004538"))).Status.ShouldBe(HttpStatusCode.OK);
        var answer = await user.CourseAsync(record);
        while (answer.Status == HttpStatusCode.OK)
        {
            answer = await user.CourseAsync(record);
        }

        answer.Status.ShouldBe(HttpStatusCode.Unauthorized);
        ((string?)answer.Body["issue"]![0]!["details"]!["coding"]![0]!["code"]).ShouldBe("HFB6048");
    }

    [Fact]
    public async Task Course_OfAnIdentifierNobodyCarries_IsNotFound()
    {
        using var user = new UserAgent();

        var answer = await user.GoAsync(new(record.Service, "courses?system=https://harbour-hand-clinic.example/id/patient&value=nobody"));

        (answer.Status, answer.Body.Contains("HFB6040", StringComparison.Ordinal)).ShouldBe((HttpStatusCode.NotFound, true));
    }

    private static void ShouldSay((Uri At, HttpStatusCode Status, string Body) answer, HttpStatusCode status, string code)
    {
        answer.Status.ShouldBe(status, answer.Body);
        answer.Body.ShouldContain(code);
        answer.Body.ShouldContain("<h2>What to do</h2>");
    }
}
