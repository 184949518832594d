using System.Collections.Immutable;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>targets show, from what deliveries have left behind.</summary>
public sealed class TargetsTests : IDisposable
{
    private static readonly DateTimeOffset Time = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);
    private readonly DataFolder folder = new();

    [Fact]
    public async Task Show_BeforeAnyDelivery_SaysThatNothingIsKnown()
    {
        var run = await CommandRun.StartAsync(folder.Path, "targets", "show");

        run.ExitCode.ShouldBe(0, run.Error);
        run.Output.ShouldContain("embedded record");
        run.Output.ShouldContain("not yet read");
        run.Output.ShouldContain("not yet found out");
    }

    [Fact]
    public async Task Show_AfterAFall_TellsRungCauseAndSignInWithoutTheSecret()
    {
        Know();

        var run = await CommandRun.StartAsync(folder.Path, "targets", "show");

        run.ExitCode.ShouldBe(0, run.Error);
        run.Output.ShouldContain("https://fhir.clinic.example/r4/");
        run.Output.ShouldContain("sign-in       bearer");
        run.Output.ShouldNotContain("token");
        run.Output.ShouldContain("read 2026-03-02 09:00:00Z: FHIR 4.0.1, transactions yes, 1 resource types");
        run.Output.ShouldContain("rung          2 (transaction of conditional creates), since 2026-03-02 09:00:00Z");
        run.Output.ShouldContain("last fall     from 1 (transaction of updates) to 2 (transaction of conditional creates) at 2026-03-02 09:00:00Z: HTTP 405 (not-supported)");
        run.Output.ShouldContain("Observation           create yes, update as create no, conditional create not declared");
    }

    [Fact]
    public async Task Show_AsJson_IsTheSameForPrograms()
    {
        Know();

        var run = await CommandRun.StartAsync(folder.Path, "targets", "show", "--json");

        var target = JsonNode.Parse(run.Output)![0]!;
        ((string?)target["rung"]!["rung"]).ShouldBe("transaction-of-conditional-creates");
        ((string?)target["lastFall"]!["because"]).ShouldBe("HTTP 405 (not-supported)");
        ((bool?)target["capabilities"]!["resources"]!["Observation"]!["updateCreate"]).ShouldBe(false);
    }

    // RFC 7517 section 5: a JWK Set has a member "keys"; RFC 7518 section 6.2.2: "d" is the private one.
    [Fact]
    public async Task Jwks_BeforeTheFirstStart_PrintsThePublicHalvesAlone()
    {
        Directory.CreateDirectory(Path.Combine(folder.Path, "signing"));
        using (var key = System.Security.Cryptography.ECDsa.Create(System.Security.Cryptography.ECCurve.NamedCurves.nistP384))
        {
            folder.Write("signing/2026-11.pem", key.ExportPkcs8PrivateKeyPem());
        }

        folder.Write("handfhirbridge.json", $$"""
            { "Target": { "BaseUrl": "https://fhir.clinic.example/r4", "SignIn": { "Method": "BackendServices", "ClientId": "bridge", "KeysDirectory": "{{folder.Path}}/signing" } } }
            """);

        var run = await CommandRun.StartAsync(folder.Path, "targets", "jwks");

        run.ExitCode.ShouldBe(0, run.Error);
        var published = JsonNode.Parse(run.Output)!["keys"]!.AsArray().ShouldHaveSingleItem()!.AsObject();
        ((string?)published["kid"]).ShouldBe("2026-11");
        published.ContainsKey("d").ShouldBeFalse();
    }

    [Fact]
    public async Task Jwks_WithoutBackendServices_SaysSo()
    {
        var run = await CommandRun.StartAsync(folder.Path, "targets", "jwks");

        run.ExitCode.ShouldNotBe(0);
        run.Error.ShouldContain("BackendServices");
    }

    public void Dispose() => folder.Dispose();

    private void Know()
    {
        folder.Write("token.txt", "a-token-that-is-not-shown");
        folder.Write("handfhirbridge.json", """
            { "Target": { "BaseUrl": "https://fhir.clinic.example/r4", "SignIn": { "Method": "Bearer", "Secret": "file:token.txt" } } }
            """);
        new TargetKnowledgeFile(Path.Combine(folder.Path, "data", "targets")).Save("default", new(
            new("https://fhir.clinic.example/r4/"),
            new(Time, "4.0.1", true, new Dictionary<string, ResourceCapability> { ["Observation"] = new(false, null, true) }.ToImmutableDictionary()),
            new(Rung.TransactionOfConditionalCreates, Time),
            new(Rung.TransactionOfUpdates, Rung.TransactionOfConditionalCreates, Time, "HTTP 405 (not-supported)")));
    }
}
