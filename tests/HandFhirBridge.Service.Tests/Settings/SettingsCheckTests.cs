using HandFhirBridge.Service.Settings;

namespace HandFhirBridge.Service.Tests.Settings;

public sealed class SettingsCheckTests
{
    public static TheoryData<string, Action<BridgeSettings>> Faults => new()
    {
        { "Listen is \"8090\"", s => s.Listen = "8090" },
        { "Listen is \"http://0.0.0.0:8090\"", s => s.Listen = "http://0.0.0.0:8090" },
        { "Security:Audience is missing", s => s.Security.Authority = new Uri("https://login.clinic.example") },
        { "Security:KeyFile /no/such/keys.json does not exist", s => s.Security.KeyFile = "/no/such/keys.json" },
        { "Target:BaseUrl is \"fhir.clinic.example\"", s => s.Target.BaseUrl = "fhir.clinic.example" },
        { "Target:EmbeddedPort is 70000", s => s.Target.EmbeddedPort = 70000 },
        { "Target:Concurrency is 0", s => s.Target.Concurrency = 0 },
        { "Target:TimeoutSeconds is 601", s => s.Target.TimeoutSeconds = 601 },
        { "Sites:0 lacks an Id or a Name", s => s.Sites.Add(new() { Id = "a" }) },
        { "Sites:0 (a) has half an identifier", s => s.Sites.Add(new() { Id = "a", Name = "A", IdentifierValue = "1" }) },
        { "The site id \"a\" stands 2 times", s => { s.Sites.Add(new() { Id = "a", Name = "A" }); s.Sites.Add(new() { Id = "a", Name = "B" }); } },
        { "needs either Sem, or StandardDeviation and Icc", s => s.MeasurementErrors.Add(Error(e => e.Sem = null)) },
        { "has a number that cannot be", s => s.MeasurementErrors.Add(Error(e => e.Sem = -1)) },
        { "has Level 99", s => s.MeasurementErrors.Add(Error(e => e.Level = 99)) },
        { "lacks Subject, Population or Source", s => s.MeasurementErrors.Add(Error(e => e.Source = "")) },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Find_OneFault_NamesSettingAndValueOnce(string expected, Action<BridgeSettings> spoil)
    {
        var settings = new BridgeSettings();
        spoil(settings);

        SettingsCheck.Find(settings).ShouldHaveSingleItem().ShouldContain(expected);
    }

    [Fact]
    public void Find_Defaults_AreFine() => SettingsCheck.Find(new BridgeSettings()).ShouldBeEmpty();

    [Fact]
    public void Find_SeveralFaults_NamesEach()
    {
        var settings = new BridgeSettings { Listen = "nowhere" };
        settings.Target.Concurrency = 0;

        SettingsCheck.Find(settings).Count().ShouldBe(2);
    }

    private static MeasurementErrorSettings Error(Action<MeasurementErrorSettings> spoil)
    {
        var error = new MeasurementErrorSettings { Subject = "writing", Population = "invented", Source = "invented", Sem = 1 };
        spoil(error);
        return error;
    }
}
