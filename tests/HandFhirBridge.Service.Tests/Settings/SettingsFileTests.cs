using HandFhirBridge.Service.Cli;
using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Tests.Settings;

public sealed class SettingsFileTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("hfb-settings-").FullName;

    [Fact]
    public void Load_EveryKindOfSetting_IsRead()
    {
        var settings = SettingsFile.Load(Write("""
            {
              "DataDirectory": "/var/lib/hfb", "Target": { "BaseUrl": "https://fhir.clinic.example/r4", "Concurrency": 2 },
              "Ledger": { "Store": "sqlite", "LeaseMinutes": 5 }, "Targets": [ { "Name": "north", "BaseUrl": "https://north.example/r4", "SessionsPerMinute": 60 } ],
              "Sites": [ { "Id": "a", "Name": "A", "Target": "north" } ],
              "MeasurementErrors": [ { "Subject": "writing", "Population": "p", "Source": "s", "StandardDeviation": 1.5, "Icc": 0.9, "Level": 90 } ]
            }
            """));

        settings.DataDirectory.ShouldBe("/var/lib/hfb");
        settings.Target.BaseUrl.ShouldBe("https://fhir.clinic.example/r4");
        (settings.Ledger.Store, settings.Ledger.LeaseMinutes).ShouldBe((LedgerStore.Sqlite, 5));
        settings.Targets.ShouldHaveSingleItem().SessionsPerMinute.ShouldBe(60);
        settings.Sites.ShouldHaveSingleItem().Target.ShouldBe("north");
        settings.MeasurementErrors.ShouldHaveSingleItem().Icc.ShouldBe(0.9m);
    }

    [Theory]
    [InlineData("""{ "DataDirectry": "x" }""", "'DataDirectry' is no setting. See")]
    [InlineData("""{ "Telemetry": { "Enabled": true } }""", "'Enabled' is no setting of Telemetry. See")]
    [InlineData("""{ "Target": { "SignIn": { "Methd": "None" } } }""", "'Methd' is no setting of SignIn. See")]
    [InlineData("""{ "Target": { "Concurrency": "many" } }""", "Concurrency")]
    [InlineData("""{ "Ledger": { "Store": "paper" } }""", "Ledger:Store")]
    [InlineData("""{ "Target": """, "settings")]
    public void Load_UnknownWrongOrBroken_IsRefusedByName(string json, string named) =>
        Should.Throw<CommandFailedException>(() => SettingsFile.Load(Write(json))).Message.ShouldContain(named);

    [Fact]
    public void Load_MissingFile_IsRefused() =>
        Should.Throw<CommandFailedException>(() => SettingsFile.Load(Path.Combine(folder, "none.json"))).Message.ShouldContain("does not exist");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private string Write(string json)
    {
        var path = Path.Combine(folder, "handfhirbridge.json");
        File.WriteAllText(path, json);
        return path;
    }
}
