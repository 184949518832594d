using System.Security.Cryptography;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sqlite;
using Microsoft.Extensions.Time.Testing;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>A SQLite ledger whose file is damaged or whose disk is full.</summary>
public sealed class DamagedLedgerTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("damaged-").FullName;
    private readonly FakeTimeProvider clock = new(new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private string FilePath => Path.Combine(folder, "ledger.db");

    public void Dispose() => Directory.Delete(folder, recursive: true);

    // The database header string of https://www.sqlite.org/fileformat.html#the_database_header, and the schema on the first page.
    [Theory]
    [InlineData(0, 16)]
    [InlineData(100, 3_000)]
    public async Task Open_DamagedFile_IsRefusedAndUntouchedByteForByte(int from, int length)
    {
        await FillAsync();
        await using (var file = new FileStream(FilePath, FileMode.Open))
        {
            file.Seek(from, SeekOrigin.Begin);
            file.Write(Enumerable.Repeat((byte)0xA5, length).ToArray());
        }

        var before = Hash();

        var problem = Should.Throw<LedgerException>(Open).Problem;

        problem.Code.ShouldBe("HFB5004");
        problem.Message.ShouldContain(FilePath);
        Hash().ShouldBe(before);
    }

    [Fact]
    public async Task Accept_PagesOfTheTablesDamaged_IsRefusedAndNothingIsAcknowledged()
    {
        await FillAsync();
        await using (var file = new FileStream(FilePath, FileMode.Open))
        {
            // All pages but the first, which holds the schema.
            file.Seek(4096, SeekOrigin.Begin);
            file.Write(Enumerable.Repeat((byte)0xA5, (int)file.Length - 4096).ToArray());
        }

        var refused = await Should.ThrowAsync<LedgerException>(async () =>
        {
            using var ledger = Open();
            await ledger.AcceptAsync(Sessions.Session("S-9"));
        });

        refused.Problem.Code.ShouldBe("HFB5004");
    }

    // A disk of its own that is full: a file system in memory of one mebibyte. Needs the right to mount.
    [Fact]
    public async Task Accept_DiskFull_SaysSoKeepsWhatWasThereAndGoesOnWhenThereIsRoom()
    {
        using var disk = SmallDisk.Mount(folder);
        using var ledger = new SqliteLedger(Path.Combine(disk.Path, "ledger.db"), clock);
        await ledger.AcceptAsync(Sessions.Session("S-1"));
        var rest = disk.Fill();

        var refused = await Should.ThrowAsync<LedgerException>(
            () => ledger.AcceptAsync([Sessions.Session("S-2"), Sessions.Session("S-3", Large)], Cancellation));

        refused.Problem.Code.ShouldBe("HFB5005");
        (await ledger.ListAsync(new(), Cancellation)).Select(e => e.Key.SessionId).ShouldBe(["S-1"]);
        File.Delete(rest);
        (await ledger.AcceptAsync(Sessions.Session("S-3", Large))).Outcome.ShouldBe(AcceptOutcome.Accepted);
        (await ledger.LeaseAsync()).ShouldNotBeNull().Entry.Key.SessionId.ShouldBe("S-1");
    }

    private static string Large => $"\"{new string('x', 200_000)}\"";

    private SqliteLedger Open() => new(FilePath, clock);

    private async Task FillAsync()
    {
        using var ledger = Open();
        await ledger.AcceptAsync([.. Enumerable.Range(1, 20).Select(n => Sessions.Session($"S-{n}", $"\"{new string('y', 5_000)}\"", patient: $"P-{n}"))], Cancellation);
    }

    private string Hash() => Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(FilePath)));
}
