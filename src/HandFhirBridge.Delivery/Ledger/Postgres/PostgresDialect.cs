using HandFhirBridge.Delivery.Ledger.Sql;

namespace HandFhirBridge.Delivery.Ledger.Postgres;

/// <summary>Many writers at once: rows under way are passed over, and writers of one session wait for each other.</summary>
internal sealed class PostgresDialect : SqlDialect
{
    public override string Claim => "FOR UPDATE OF s SKIP LOCKED";

    public override string Lock => "FOR UPDATE OF s";

    public override string NotAmong(string column, string parameter) => $"{column} <> ALL ({parameter})";

    // In one order for all, so that two batches with the same sessions cannot wait for each other in a circle.
    public override Task LockSessionsAsync(SqlScope scope, IEnumerable<SessionKey> keys) => scope.ExecuteAsync(
        """
        SELECT pg_advisory_xact_lock(o.key) FROM (
          SELECT DISTINCT hashtextextended(n.name, 0) AS key FROM unnest(@names) AS n (name) ORDER BY key) AS o
        """,
        new { names = keys.Select(key => $"{key.Site}/{key.SessionId}").Distinct(StringComparer.Ordinal).ToArray() });
}
