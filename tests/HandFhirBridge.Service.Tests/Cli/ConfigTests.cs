using HandFhirBridge.Service.Tests.Http;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>config check: what an integrator sees before the service is started.</summary>
public sealed class ConfigTests(RunningService running) : IClassFixture<RunningService>, IDisposable
{
    private readonly DataFolder folder = new();

    [Fact]
    public async Task Check_SeveralWrongSettings_NamesEachAndEndsWithFindings()
    {
        folder.Write("handfhirbridge.json", """
            {
              "Listen": "clinic",
              "Target": { "BaseUrl": "fhir.clinic.example", "Concurrency": 0, "SignIn": { "Method": "ClientSecret", "Secret": "swordfish" } },
              "Sites": [ { "Id": "harbour-hand-clinic", "Name": "Harbour Hand Clinic", "Target": "hillside" } ]
            }
            """);

        var run = await CommandRun.StartAsync(folder.Path, "config", "check");

        run.ExitCode.ShouldBe(1, run.Error);
        foreach (var setting in new[] { "Listen ", "Target:BaseUrl ", "Target:Concurrency ", "Target:SignIn:ClientId ", "Target:SignIn:Secret ", "\"hillside\"", "No way to sign in" })
        {
            run.Output.ShouldContain(setting);
        }

        run.Output.ShouldContain("7 to correct");
        run.Output.ShouldNotContain("swordfish", Case.Sensitive, "a secret put in the wrong place is still a secret");
    }

    [Fact]
    public async Task Check_SettingThatDoesNotExist_IsNamed()
    {
        folder.Write("handfhirbridge.json", """{ "Target": { "Adress": "https://fhir.clinic.example/r4" } }""");

        var run = await CommandRun.StartAsync(folder.Path, "config", "check");

        run.ExitCode.ShouldNotBe(0);
        run.Error.ShouldContain("Adress");
    }

    [Fact]
    public async Task Check_GoodSettings_TellsWhatTheyMeanAndMakesNothing()
    {
        folder.Write("handfhirbridge.json", $$"""{ "Demonstration": true, "DataDirectory": "{{folder.Path}}/made-later", "Target": { "BaseUrl": "https://fhir.clinic.example/r4" } }""");

        var run = await CommandRun.StartAsync(folder.Path, "config", "check");

        run.ExitCode.ShouldBe(0, run.Error + run.Output);
        run.Output.ShouldContain("complete");
        run.Output.ShouldContain("default: https://fhir.clinic.example/r4, sign-in none");
        Directory.Exists(Path.Combine(folder.Path, "made-later")).ShouldBeFalse();
    }

    [Fact]
    public async Task Check_Connect_AsksTheServerAndTellsWhatItAnswers()
    {
        folder.Write("handfhirbridge.json", $$"""
            {
              "Demonstration": true,
              "Target": { "BaseUrl": "{{running.Process.Record.BaseAddress}}" },
              "Targets": [ { "Name": "dead", "BaseUrl": "http://127.0.0.1:9/r4" } ]
            }
            """);

        var run = await CommandRun.StartAsync(folder.Path, "config", "check", "--connect");

        run.ExitCode.ShouldBe(1, run.Error + run.Output);
        run.Output.ShouldContain("default      capabilities: FHIR 4.0.1");
        run.Output.ShouldContain("default      searching patients: HTTP 200");
        run.Output.ShouldContain("dead         capabilities: the connection failed: nothing accepts it at the address");
        run.Output.ShouldContain("Check the target's address");
        run.Output.ShouldNotContain("dead         searching", Case.Sensitive, "what could not be reached is not asked twice");
    }

    public void Dispose() => folder.Dispose();
}
