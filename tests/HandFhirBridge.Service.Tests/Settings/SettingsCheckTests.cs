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
        { "Target:SessionsPerMinute is 0", s => s.Target.SessionsPerMinute = 0 },
        { "Target:Name is \"north\"", s => s.Target.Name = "north" },
        { "Targets:0:Name is \"default\"", s => s.Targets.Add(new() { BaseUrl = "https://north.example/r4" }) },
        { "Targets:0:BaseUrl is missing", s => s.Targets.Add(new() { Name = "north" }) },
        { "Targets:0:Concurrency is 0", s => s.Targets.Add(North(t => t.Concurrency = 0)) },
        { "The name \"north\" stands 2 times in Targets", s => { s.Targets.Add(North()); s.Targets.Add(North()); } },
        { "The site \"a\" has Target \"north\"", s => s.Sites.Add(new() { Id = "a", Name = "A", Target = "north" }) },
        { "Ledger:LeaseMinutes is 0", s => s.Ledger.LeaseMinutes = 0 },
        { "Ledger:Store is sqlite, which has none", s => s.Ledger.ConnectionString = "env:ANY" },
        { "Ledger:ConnectionString is missing", s => Share(s, null) },
        { "neither env:NAME nor file:PATH", s => Share(s, "Host=db;Password=not-to-be-told") },
        { "Ledger:ConnectionString: The secret file:/no/such/file is missing", s => Share(s, "file:/no/such/file") },
        { "lacks Host or Database", s => Share(s, Connection("Username=u;Password=not-to-be-told")) },
        { "cannot be read. Write keywords", s => Share(s, Connection("not-to-be-told")) },
        { "Ledger:KeysDirectory is missing", s => { Share(s, Connection("Host=db;Database=d")); s.Ledger.KeysDirectory = null; } },
        { "Target:BaseUrl is missing. The embedded record", s => { Share(s, Connection("Host=db;Database=d")); s.Target.BaseUrl = null; } },
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

        var sentence = SettingsCheck.Find(settings).ShouldHaveSingleItem();
        sentence.ShouldContain(expected);
        sentence.ShouldNotContain("not-to-be-told");
    }

    [Fact]
    public void Find_SharedLedgerWithAllItNeeds_IsFine()
    {
        var settings = new BridgeSettings();
        Share(settings, Connection("Host=db.clinic.example;Database=handfhirbridge"));
        settings.Targets.Add(North());
        settings.Sites.Add(new() { Id = "a", Name = "A", Target = "north" });

        SettingsCheck.Find(settings).ShouldBeEmpty();
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

    private static TargetSettings North(Action<TargetSettings>? spoil = null)
    {
        var target = new TargetSettings { Name = "north", BaseUrl = "https://north.example/r4" };
        spoil?.Invoke(target);
        return target;
    }

    private static void Share(BridgeSettings settings, string? connection)
    {
        settings.Ledger.Store = LedgerStore.Postgresql;
        settings.Ledger.ConnectionString = connection;
        settings.Ledger.KeysDirectory = "/srv/handfhirbridge/keys";
        settings.Target.BaseUrl = "https://fhir.clinic.example/r4";
    }

    /// <summary>A secret in a variable of its own, as an operator would set it.</summary>
    private static string Connection(string secret)
    {
        var name = $"HFBTEST_LEDGER_{(uint)secret.GetHashCode(StringComparison.Ordinal)}";
        Environment.SetEnvironmentVariable(name, secret);
        return $"env:{name}";
    }

    private static MeasurementErrorSettings Error(Action<MeasurementErrorSettings> spoil)
    {
        var error = new MeasurementErrorSettings { Subject = "writing", Population = "invented", Source = "invented", Sem = 1 };
        spoil(error);
        return error;
    }
}
