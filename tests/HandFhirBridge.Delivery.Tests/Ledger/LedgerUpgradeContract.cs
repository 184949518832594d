using System.Collections.Immutable;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Ledger.Sql;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>What every store must keep to when the program's version changes.</summary>
public abstract class LedgerUpgradeContract : LedgerClockContract
{
    /// <summary>Scripts of this version.</summary>
    private protected abstract ImmutableArray<string> Scripts { get; }

    /// <summary>Opens the store as a version with these scripts would.</summary>
    private protected abstract ISqlStore OpenAs(ImmutableArray<string> scripts);

    [Fact]
    public async Task Open_OlderLedger_IsUpgradedWithAllItHolds()
    {
        await Ledger.AcceptAsync(Sessions.Session());

        using var later = OpenAs(Scripts.Add("ALTER TABLE sessions ADD COLUMN ward TEXT; UPDATE sessions SET ward = 'invented';"));

        (await later.ReadAsync(scope => scope.ListAsync<string>("SELECT session_id || ward FROM sessions"), Cancellation)).ShouldBe(["S-1invented"]);
        (await VersionAsync(later)).ShouldBe(Scripts.Length + 1);
    }

    [Fact]
    public async Task Open_LedgerOfALaterVersion_IsRefusedAndLeftAlone()
    {
        var later = Scripts.Add("CREATE TABLE wards (id INTEGER);");
        OpenAs(later).Dispose();

        var refused = Should.Throw<LedgerException>(() => OpenAs(Scripts)).Problem;

        refused.Code.ShouldBe("HFB5006");
        refused.Message.ShouldContain($"schema {later.Length}");
        using var again = OpenAs(later);
        (await VersionAsync(again)).ShouldBe(later.Length);
    }

    [Fact]
    public async Task Open_UpgradeThatFailsHalfWay_ChangesNothing()
    {
        await Ledger.AcceptAsync(Sessions.Session());

        Should.Throw<LedgerException>(() => OpenAs(Scripts.Add("CREATE TABLE wards (id INTEGER);").Add("DROP TABLE payloads; SELECT nothing FROM nowhere;")));

        using var before = OpenAs(Scripts);
        (await VersionAsync(before)).ShouldBe(Scripts.Length);
        (await Ledger.ReadPayloadAsync(Sessions.Session().Key, Cancellation)).ShouldNotBeNull();
        using var after = OpenAs(Scripts.Add("CREATE TABLE wards (id INTEGER);"));
        (await VersionAsync(after)).ShouldBe(Scripts.Length + 1);
    }

    private static Task<int> VersionAsync(ISqlStore store) =>
        store.ReadAsync(scope => scope.ScalarAsync<int>("SELECT max(version) FROM migrations"), Cancellation);
}
