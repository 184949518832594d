using System.Globalization;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>What commands say of what is around them: a running service, a database.</summary>
public sealed class EnvironmentTests : IDisposable
{
    private readonly DataFolder folder = new();

    [Fact]
    public async Task Health_NothingListens_SaysSoAndAnswersThree()
    {
        folder.Write("handfhirbridge.json", """{ "Listen": "http://127.0.0.1:1", "Demonstration": true }""");

        var run = await CommandRun.StartAsync(folder.Path, "health");

        (run.ExitCode, run.Output).ShouldBe((3, ""));
        run.Error.ShouldStartWith("Nothing answers at http://127.0.0.1:1/health/ready.");
    }

    [Fact]
    public async Task Health_ServiceThatIsReady_AnswersNought()
    {
        using var data = new DataFolder();
        using var service = await ServiceProcess.StartAsync(data.Path, TestContext.Current.CancellationToken);
        var port = service.Api.BaseAddress!.Port.ToString(CultureInfo.InvariantCulture);
        // A service that listens for all is asked on loopback; the key file only has to be there.
        folder.Write("keys.json", "[]");
        folder.Write("handfhirbridge.json", $$"""{ "Listen": "http://0.0.0.0:{{port}}", "Security": { "KeyFile": "keys.json" } }""");

        var run = await CommandRun.StartAsync(folder.Path, "health");

        run.ExitCode.ShouldBe(0, run.Error);
        run.Output.ShouldContain("\"ready\"");
    }

    [Theory]
    [InlineData("ledger", "list")]
    [InlineData("serve", "--demonstration")]
    public async Task LedgerInADatabaseThatDoesNotAnswer_IsNamedWithItsRemedyAndNoPassword(string command, string argument)
    {
        var connection = folder.Write("connection", "Host=127.0.0.1;Port=1;Database=ledger;Username=u;Password=not-to-be-told");
        folder.Write("handfhirbridge.json", $$"""
            {
              "Ledger": { "Store": "postgresql", "ConnectionString": "file:{{connection}}", "KeysDirectory": "{{folder.File("keys")}}" },
              "Target": { "BaseUrl": "http://127.0.0.1:1/fhir" }, "Listen": "http://127.0.0.1:0"
            }
            """);

        var run = await CommandRun.StartAsync(folder.Path, command, argument);

        run.ExitCode.ShouldBe(3, run.Error);
        run.Error.ShouldContain("The ledger's database cannot be reached: 127.0.0.1/ledger");
        run.Error.ShouldContain("Check that PostgreSQL runs");
        (run.Output + run.Error).ShouldNotContain("not-to-be-told");
        run.Error.ShouldNotContain("   at ");
    }

    public void Dispose() => folder.Dispose();
}
