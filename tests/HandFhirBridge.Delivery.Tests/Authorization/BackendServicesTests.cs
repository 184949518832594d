using HandFhirBridge.Delivery.Authorization;
using Microsoft.Extensions.Time.Testing;
using Microsoft.IdentityModel.JsonWebTokens;

namespace HandFhirBridge.Delivery.Tests.Authorization;

/// <summary>
/// SMART App Launch 2.2, Backend Services, against an authorization server that others wrote (npm oidc-provider): what it accepts
/// from us, what it refuses and what we say then, and what it lets through that we must not use.
/// </summary>
public sealed class BackendServicesTests(AuthorizationServer server) : IClassFixture<AuthorizationServer>, IDisposable
{
    private const string All = "system/*.cruds";
    private readonly HttpClient http = new(new SocketsHttpHandler());

    public void Dispose() => http.Dispose();

    [Theory]
    [InlineData("by-rsa")]
    [InlineData("by-ec")]
    public async Task Get_EitherAlgorithm_IsGivenATokenForTheTarget(string client)
    {
        using var tokens = Tokens(client, client == "by-rsa" ? server.Rsa : server.Ec, All);

        var token = await tokens.GetAsync(TestContext.Current.CancellationToken);

        var read = new JsonWebToken(token.Value);
        read.Audiences.ShouldBe(["http://127.0.0.1/fhir"]);
        read.GetClaim("scope").Value.ShouldBe(All);
    }

    // A server that remembers jti refuses an assertion that comes twice.
    [Fact]
    public async Task Get_AgainAfterARefusedToken_SignsAnew()
    {
        using var tokens = Tokens("by-ec", server.Ec, All);
        var first = await tokens.GetAsync(TestContext.Current.CancellationToken);
        tokens.Discard(first);

        var second = await tokens.GetAsync(TestContext.Current.CancellationToken);

        second.Value.ShouldNotBe(first.Value);
    }

    [Fact]
    public async Task Get_TwoScopes_AreBothGranted()
    {
        using var tokens = Tokens("by-ec", server.Ec, "system/Patient.rs system/Observation.cruds");

        var token = await tokens.GetAsync(TestContext.Current.CancellationToken);

        new JsonWebToken(token.Value).GetClaim("scope").Value.Split(' ').ShouldBe(["system/Patient.rs", "system/Observation.cruds"], ignoreOrder: true);
    }

    [Theory]
    [InlineData("nobody", "ec", All, 0, "invalid_client")]
    [InlineData("by-ec", "stranger", All, 0, "invalid_client")]
    [InlineData("by-ec", "ec", All, -60, "invalid_client")]
    [InlineData("reader", "ec", All, 0, "invalid_scope")]
    [InlineData("reader", "ec", "system/Nonsense.rs", 0, "none of the scopes asked for (system/Nonsense.rs)")]
    public async Task Get_WhatMustNotWork_SaysWhyInPlainWords(string client, string key, string scope, int minutes, string why)
    {
        using var tokens = Tokens(client, key == "stranger" ? server.Stranger : server.Ec, scope, TimeSpan.FromMinutes(minutes));

        var failed = await Should.ThrowAsync<SignInException>(async () => await tokens.GetAsync(TestContext.Current.CancellationToken));

        failed.Message.ShouldContain(why);
        failed.Message.ShouldContain("127.0.0.1");
    }

    private ClientCredentialsTokens Tokens(string client, string keys, string scope, TimeSpan late = default)
    {
        Assert.SkipWhen(server.Missing is not null, server.Missing ?? "");
        var clock = new FakeTimeProvider(TimeProvider.System.GetUtcNow() + late);
        var options = new SignInOptions { Method = SignInMethod.BackendServices, ClientId = client, Scope = scope };
        return new(http, options, _ => Task.FromResult(server.TokenEndpoint), new ClientAssertions(new SigningKeys(keys), clock), clock);
    }
}
