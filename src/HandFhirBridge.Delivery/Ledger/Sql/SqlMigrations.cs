using System.Collections.Immutable;
using System.Data;
using System.Globalization;
using Dapper;

namespace HandFhirBridge.Delivery.Ledger.Sql;

/// <summary>
/// Brings a database to the schema this version works with: the scripts <c>Migrations/nnnn-name.sql</c> of a store, in their
/// order, each applied once. Times in all tables are milliseconds since 1970, UTC.
/// </summary>
internal static class SqlMigrations
{
    /// <summary>The scripts of a store; the first is number 1.</summary>
    /// <param name="store">Name of the store's folder.</param>
    public static ImmutableArray<string> Of(string store)
    {
        var assembly = typeof(SqlMigrations).Assembly;
        return
        [
            .. assembly.GetManifestResourceNames()
                .Where(name => name.StartsWith($"ledger/{store}/", StringComparison.Ordinal))
                .Order(StringComparer.Ordinal)
                .Select(name =>
                {
                    using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
                    return reader.ReadToEnd();
                }),
        ];
    }

    /// <summary>Applies what is missing; the caller commits, so that an upgrade is whole or did not happen.</summary>
    /// <exception cref="LedgerException">The database is of a later version. Nothing was changed.</exception>
    public static void Bring(IDbConnection connection, IDbTransaction transaction, ImmutableArray<string> scripts, TimeProvider clock)
    {
        connection.Execute("CREATE TABLE IF NOT EXISTS migrations (version INTEGER PRIMARY KEY, applied_at TEXT NOT NULL)", transaction: transaction);
        var version = connection.ExecuteScalar<int>("SELECT coalesce(max(version), 0) FROM migrations", transaction: transaction);
        if (version > scripts.Length)
        {
            throw new LedgerException(LedgerProblems.NewerSchema.At(
                "Ledger", $"The ledger has schema {version}; this version of the program knows schema {scripts.Length}.", version.ToString(CultureInfo.InvariantCulture)));
        }

        foreach (var next in Enumerable.Range(version + 1, scripts.Length - version))
        {
            connection.Execute(scripts[next - 1], transaction: transaction);
            connection.Execute(
                "INSERT INTO migrations (version, applied_at) VALUES (@next, @now)",
                new { next, now = clock.GetUtcNow().ToString("O", CultureInfo.InvariantCulture) },
                transaction);
        }
    }
}
