using HandFhirBridge.Delivery.Ledger.Sql;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>A SQLite transaction that writes has the whole file to itself, so nothing need be locked in it.</summary>
internal sealed class SqliteDialect : SqlDialect
{
    public override string Claim => "";

    public override string Lock => "";

    public override string NotAmong(string column, string parameter) => $"{column} NOT IN {parameter}";

    public override Task LockSessionsAsync(SqlScope scope, IEnumerable<SessionKey> keys) => Task.CompletedTask;
}
