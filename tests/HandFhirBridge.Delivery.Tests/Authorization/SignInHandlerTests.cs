using System.Net;
using HandFhirBridge.Delivery.Authorization;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Authorization;

public sealed class SignInHandlerTests
{
    private readonly FakeTimeProvider clock = new(new DateTimeOffset(2026, 5, 4, 8, 0, 0, TimeSpan.Zero));

    [Fact]
    public async Task Send_TokenStillGood_IsFetchedOnce()
    {
        using var auth = new ScriptedServer(Token("t1"));
        using var target = new ScriptedServer(Ok, Ok);
        using var client = Client(auth, target);

        await client.GetAsync(new Uri("https://fhir.clinic.example/metadata"), TestContext.Current.CancellationToken);
        await client.GetAsync(new Uri("https://fhir.clinic.example/metadata"), TestContext.Current.CancellationToken);

        target.Asked.Select(a => a.Authorization).ShouldBe(["Bearer t1", "Bearer t1"]);
        auth.Asked.Count.ShouldBe(1);
    }

    [Fact]
    public async Task Send_TokenNearItsEnd_IsRenewedBefore()
    {
        using var auth = new ScriptedServer(Token("t1"), Token("t2"));
        using var target = new ScriptedServer(Ok, Ok);
        using var client = Client(auth, target);

        await client.GetAsync(new Uri("https://fhir.clinic.example/metadata"), TestContext.Current.CancellationToken);
        clock.Advance(TimeSpan.FromSeconds(271));
        await client.GetAsync(new Uri("https://fhir.clinic.example/metadata"), TestContext.Current.CancellationToken);

        target.Asked.Select(a => a.Authorization).ShouldBe(["Bearer t1", "Bearer t2"]);
    }

    // RFC 6750 section 3.1: 401 invalid_token, "the client MAY request a new access token and retry".
    [Fact]
    public async Task Send_TargetAnswers401_OneNewTokenAndOneMoreTryWithTheSameBody()
    {
        using var auth = new ScriptedServer(Token("t1"), Token("t2"));
        using var target = new ScriptedServer(_ => new(HttpStatusCode.Unauthorized), Ok);
        using var client = Client(auth, target);

        using var body = new StringContent("{}");
        var answer = await client.PostAsync(new Uri("https://fhir.clinic.example/"), body, TestContext.Current.CancellationToken);

        answer.StatusCode.ShouldBe(HttpStatusCode.OK);
        target.Asked.Select(a => (a.Authorization, a.Body)).ShouldBe([("Bearer t1", "{}"), ("Bearer t2", "{}")]);
    }

    [Fact]
    public async Task Send_TargetAnswers401Twice_GivesTheAnswerBack()
    {
        using var auth = new ScriptedServer(Token("t1"), Token("t2"));
        using var target = new ScriptedServer(_ => new(HttpStatusCode.Unauthorized), _ => new(HttpStatusCode.Unauthorized));
        using var client = Client(auth, target);

        var answer = await client.GetAsync(new Uri("https://fhir.clinic.example/metadata"), TestContext.Current.CancellationToken);

        answer.StatusCode.ShouldBe(HttpStatusCode.Unauthorized);
        target.Asked.Count.ShouldBe(2);
    }

    // RFC 6749 section 5.2: error answers of the token endpoint.
    [Fact]
    public async Task Send_TokenEndpointRefuses_SaysWhyWithoutTheSecret()
    {
        using var auth = new ScriptedServer(_ => ScriptedServer.Json(HttpStatusCode.BadRequest, """{"error":"invalid_client","error_description":"unknown key"}"""));
        using var target = new ScriptedServer(Ok);
        using var client = Client(auth, target);

        var failed = await Should.ThrowAsync<SignInException>(
            () => client.GetAsync(new Uri("https://fhir.clinic.example/metadata"), TestContext.Current.CancellationToken));

        failed.Message.ShouldContain("invalid_client");
        failed.Message.ShouldContain("unknown key");
        failed.Message.ShouldNotContain("s3cret");
        target.Asked.ShouldBeEmpty();
    }

    private static HttpResponseMessage Ok(HttpRequestMessage request) => new(HttpStatusCode.OK);

    private static Func<HttpRequestMessage, HttpResponseMessage> Token(string value) =>
        _ => ScriptedServer.Json(HttpStatusCode.OK, $$"""{"access_token":"{{value}}","token_type":"bearer","expires_in":300}""");

    private HttpClient Client(ScriptedServer auth, ScriptedServer target)
    {
        Environment.SetEnvironmentVariable("HFB_TEST_SECRET", "s3cret");
        var options = new SignInOptions
        {
            Method = SignInMethod.ClientSecret,
            ClientId = "bridge",
            Secret = "env:HFB_TEST_SECRET",
            TokenEndpoint = new Uri("https://auth.clinic.example/token"),
        };
        var handler = TargetSignIn.CreateHandler(
            options, new Uri("https://fhir.clinic.example/"), new HttpClient(auth, disposeHandler: false), clock)!;
        handler.InnerHandler = target;
        return new HttpClient(handler, disposeHandler: false);
    }
}
