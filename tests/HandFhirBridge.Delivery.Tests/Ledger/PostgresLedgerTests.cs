using System.Collections.Immutable;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Postgres;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Delivery.Tests.Servers;
using Microsoft.AspNetCore.DataProtection;
using Npgsql;

namespace HandFhirBridge.Delivery.Tests.Ledger;

public sealed class PostgresLedgerTests(PostgresCluster cluster) : LedgerUpgradeContract, IAsyncLifetime
{
    private PostgresLedger? ledger;
    private string database = "";

    protected override ILedger Ledger => ledger!;

    private protected override ImmutableArray<string> Scripts => SqlMigrations.Of("Postgres");

    public async ValueTask InitializeAsync()
    {
        database = await cluster.CreateDatabaseAsync(Cancellation);
        ledger = new(database, Clock);
    }

    public override ValueTask DisposeAsync()
    {
        ledger?.Dispose();
        GC.SuppressFinalize(this);
        return ValueTask.CompletedTask;
    }

    protected override SqlLedger OpenAnother() => new PostgresLedger(database, Clock);

    private protected override ISqlStore OpenAs(ImmutableArray<string> scripts) => new PostgresStore(database, new(null), scripts, Clock);

    [Fact]
    public async Task Open_ManyInstancesAtOnceOnAnEmptyDatabase_UpgradeItOnce()
    {
        var empty = await cluster.CreateDatabaseAsync(Cancellation);

        await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => new PostgresLedger(empty, Clock).Dispose())));

        using var opened = new PostgresLedger(empty, Clock);
        (await opened.AcceptAsync(Sessions.Session())).Outcome.ShouldBe(AcceptOutcome.Accepted);
    }

    // PostgreSQL 15 documentation, 20.5.1: synchronous_commit = off may lose recent transactions at a crash.
    [Fact]
    public async Task Open_ServerThatConfirmsBeforeItKeeps_IsRefused()
    {
        await cluster.ExecuteAsync($"ALTER DATABASE {Name} SET synchronous_commit = off", Cancellation);
        // Connections that are kept know nothing of the change.
        NpgsqlConnection.ClearAllPools();

        Should.Throw<LedgerException>(OpenAnother).Problem.Code.ShouldBe("HFB5022");
    }

    [Fact]
    public void Open_NobodyAnswers_SaysSoWithoutThePassword()
    {
        var problem = Should.Throw<LedgerException>(
            () => new PostgresLedger("Host=127.0.0.1;Port=1;Username=u;Password=not-to-be-told;Database=d", Clock)).Problem;

        problem.Code.ShouldBe("HFB5020");
        problem.ToString().ShouldNotContain("not-to-be-told");
    }

    [Fact]
    public void Open_DatabaseThatIsNotThere_SaysSo() => Should.Throw<LedgerException>(
        () => new PostgresLedger(database.Replace(Name, "nowhere", StringComparison.Ordinal), Clock)).Problem.Code.ShouldBe("HFB5021");

    [Fact]
    public async Task Accept_ConnectionsCutByTheServer_AreMadeAnew()
    {
        await Ledger.AcceptAsync(Sessions.Session());
        await cluster.ExecuteAsync($"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '{Name}'", Cancellation);

        (await Ledger.AcceptAsync(Sessions.Session())).Outcome.ShouldBe(AcceptOutcome.AlreadyAccepted);
    }

    [Fact]
    public void Open_WithAnotherKeyRing_IsRefusedBeforeAnythingIsHeld()
    {
        var ours = new DataProtectionPayloadProtector(new EphemeralDataProtectionProvider());
        new PostgresLedger(database, Clock, ours).Dispose();
        new PostgresLedger(database, Clock, ours).Dispose();

        var stranger = new DataProtectionPayloadProtector(new EphemeralDataProtectionProvider());

        Should.Throw<LedgerException>(() => new PostgresLedger(database, Clock, stranger)).Problem.Code.ShouldBe("HFB5023");
    }

    [Fact]
    public async Task Accept_WithProtection_LeavesNoPatientDataReadableInTheTables()
    {
        using var guarded = new PostgresLedger(database, Clock, new DataProtectionPayloadProtector(new EphemeralDataProtectionProvider()));
        await guarded.AcceptAsync(Sessions.Session(content: """{"familyName":"Lindqvist"}"""));
        await guarded.CompleteAsync((await guarded.LeaseAsync()).ShouldNotBeNull(), Retry(Clock.GetUtcNow()) with { Answer = "Lindqvist is unknown" });

        using var store = OpenAs(Scripts);
        foreach (var table in new[] { "sessions", "payloads", "attempts" })
        {
            var rows = await store.ReadAsync(scope => scope.ListAsync<string>($"SELECT t::text FROM {table} AS t"), Cancellation);
            // As text a row shows its bytes in hexadecimal.
            rows.ShouldHaveSingleItem().ShouldNotContain("Lindqvist");
            rows[0].ShouldNotContain(Convert.ToHexStringLower("Lindqvist"u8));
        }
    }

    private string Name => new NpgsqlConnectionStringBuilder(database).Database!;
}
