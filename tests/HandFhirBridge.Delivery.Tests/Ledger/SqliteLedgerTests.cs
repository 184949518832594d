using System.Collections.Immutable;
using System.Text;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Delivery.Tests.Ledger;

public sealed class SqliteLedgerTests : LedgerUpgradeContract
{
    private readonly string folder = Directory.CreateTempSubdirectory("ledger-").FullName;
    private readonly SqliteLedger ledger;

    public SqliteLedgerTests() => ledger = Open();

    protected override ILedger Ledger => ledger;

    private protected override ImmutableArray<string> Scripts => SqlMigrations.Of("Sqlite");

    private string FilePath => Path.Combine(folder, "ledger.db");

    public override ValueTask DisposeAsync()
    {
        ledger.Dispose();
        Directory.Delete(folder, recursive: true);
        GC.SuppressFinalize(this);
        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task Accept_Returned_IsInACopyOfTheFilesTakenThatInstant()
    {
        // A copy of database and log taken while the ledger is open is what a kill would leave behind.
        var accepted = new List<AcceptedSession>();
        foreach (var n in Enumerable.Range(0, 20))
        {
            accepted.Add(Sessions.Session($"S-{n}", patient: $"P-{n}"));
            await ledger.AcceptAsync(accepted[^1]);
            if (n % 3 == 0)
            {
                await ledger.LeaseAsync();
            }
        }

        using var survivor = Open(CopyFiles());

        await survivor.ReleaseAbandonedAsync(TimeSpan.Zero, Cancellation);
        (await survivor.ListAsync(new(), Cancellation)).Select(e => e.Key).ShouldBe(accepted.Select(s => s.Key));
        (await survivor.CountAsync(Cancellation)).ByState[DeliveryState.Accepted].ShouldBe(20);
    }

    [Fact]
    public async Task Open_LogCutOffInTheMiddle_KeepsEveryEarlierCommitWhole()
    {
        await ledger.AcceptAsync(Sessions.Session("S-1"));
        var committed = new FileInfo(FilePath + "-wal").Length;
        await ledger.AcceptAsync(Sessions.Session("S-2", patient: "P-2"));
        var copy = CopyFiles();
        await using (var log = new FileStream(copy + "-wal", FileMode.Open))
        {
            log.Length.ShouldBeGreaterThan(committed);
            log.SetLength(committed + ((log.Length - committed) / 2));
        }

        using var survivor = Open(copy);

        (await survivor.ListAsync(new(), Cancellation)).ShouldHaveSingleItem().Key.SessionId.ShouldBe("S-1");
        (await survivor.AcceptAsync(Sessions.Session("S-2", patient: "P-2"))).Outcome.ShouldBe(AcceptOutcome.Accepted);
    }

    [Fact]
    public async Task Open_Again_FindsWhatWasThere()
    {
        await ledger.AcceptAsync(Sessions.Session());

        using var again = Open();

        (await again.FindAsync(Sessions.Session().Key, Cancellation)).ShouldNotBeNull();
    }

    [Fact]
    public async Task Open_LedgerOfTheFirstVersion_IsUpgraded()
    {
        var path = Path.Combine(folder, "first.db");
        using (var first = OpenAs(Scripts[..1], path))
        {
            var session = Sessions.Session();
            await first.WriteAsync(
                scope => new SqlIntake(scope, new(null), 0).InsertAsync(session, ContentHash.Of(session.Document), PayloadSeal.KeyOf(session.Patient), inLine: true), Cancellation);
        }

        using var now = Open(path);

        (await now.LeaseAsync()).ShouldNotBeNull().Entry.Key.ShouldBe(Sessions.Session().Key);
    }

    [Fact]
    public void Open_FileThatIsNoDatabase_IsRefusedAndLeftAlone()
    {
        var path = Path.Combine(folder, "notes.db");
        var text = new string('x', 5_000);
        File.WriteAllText(path, text);

        Should.Throw<LedgerException>(() => Open(path)).Problem.Code.ShouldBe("HFB5004");

        File.ReadAllText(path).ShouldBe(text);
    }

    [Fact]
    public async Task Accept_FileLockedByAnother_SaysSo()
    {
        using var impatient = new SqliteLedger(FilePath, Clock, busyTimeout: TimeSpan.FromMilliseconds(50));
        await using var other = new SqliteConnection($"Data Source={FilePath};Pooling=False");
        await other.OpenAsync(Cancellation);
        await using var transaction = other.BeginTransaction(deferred: false);

        (await Should.ThrowAsync<LedgerException>(() => impatient.AcceptAsync(Sessions.Session()))).Problem.Code.ShouldBe("HFB5003");
    }

    [Fact]
    public void Create_OnUnix_OnlyTheOwnerMayRead()
    {
        if (OperatingSystem.IsWindows())
        {
            Assert.Skip("Windows has no such mode.");
            return;
        }

        var owner = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        File.GetUnixFileMode(FilePath).ShouldBe(owner);
        File.GetUnixFileMode(FilePath + "-wal").ShouldBe(owner);
    }

    [Fact]
    public async Task Accept_WithProtection_LeavesNoPatientDataReadableOnTheDisk()
    {
        var path = Path.Combine(folder, "sealed.db");
        var session = Sessions.Session(content: """{"familyName":"Lindqvist"}""");
        using (var protectedLedger = Open(path, new EphemeralDataProtectionProvider()))
        {
            await protectedLedger.AcceptAsync(session);
            var lease = (await protectedLedger.LeaseAsync()).ShouldNotBeNull();
            lease.Payload.Document.ToArray().ShouldBe(session.Document.ToArray());
            lease.Payload.Patient.ShouldBe(session.Patient);
            await protectedLedger.CompleteAsync(lease, Retry(Clock.GetUtcNow()) with { Answer = "Lindqvist is unknown" });
            (await protectedLedger.ReadAttemptsAsync(session.Key, Cancellation)).ShouldHaveSingleItem().Answer.ShouldBe("Lindqvist is unknown");
        }

        foreach (var file in Directory.GetFiles(folder, "sealed.db*"))
        {
            Encoding.Latin1.GetString(await File.ReadAllBytesAsync(file, Cancellation)).ShouldNotContain("Lindqvist");
        }
    }

    [Fact]
    public async Task Lease_SessionSealedWithALostKey_IsHeldAndKeepsNobodyBack()
    {
        var path = Path.Combine(folder, "sealed.db");
        using (var before = Open(path, new EphemeralDataProtectionProvider()))
        {
            await before.AcceptAsync(Sessions.Session("S-1"));
        }

        using var after = Open(path, new EphemeralDataProtectionProvider());
        await after.AcceptAsync(Sessions.Session("S-2", patient: "P-2"));

        (await after.LeaseAsync()).ShouldNotBeNull().Entry.Key.SessionId.ShouldBe("S-2");
        var entry = (await after.FindAsync(Sessions.Session("S-1").Key, Cancellation)).ShouldNotBeNull();
        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB5008"));
    }

    [Fact]
    public async Task Lease_AfterProtectionIsTurnedOn_StillReadsWhatWasNotSealed()
    {
        await ledger.AcceptAsync(Sessions.Session());

        using var after = Open(FilePath, new EphemeralDataProtectionProvider());

        (await after.LeaseAsync()).ShouldNotBeNull().Payload.Patient.FamilyName.ShouldBe("Lindqvist");
    }

    protected override SqlLedger OpenAnother() => Open();

    private protected override ISqlStore OpenAs(ImmutableArray<string> scripts) => OpenAs(scripts, FilePath);

    private SqliteStore OpenAs(ImmutableArray<string> scripts, string path) => new(path, TimeSpan.FromSeconds(10), scripts, Clock);

    private SqliteLedger Open(string? path = null, IDataProtectionProvider? protection = null) =>
        new(path ?? FilePath, Clock, protection is null ? null : new DataProtectionPayloadProtector(protection));

    private string CopyFiles()
    {
        var copy = Path.Combine(folder, "copy.db");
        foreach (var suffix in new[] { "", "-wal" })
        {
            File.Copy(FilePath + suffix, copy + suffix);
        }

        return copy;
    }
}
