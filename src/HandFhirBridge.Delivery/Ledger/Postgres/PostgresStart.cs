using System.Collections.Immutable;
using System.Data;
using Dapper;
using HandFhirBridge.Delivery.Ledger.Sql;
using Npgsql;

namespace HandFhirBridge.Delivery.Ledger.Postgres;

/// <summary>What is done, and what must hold, before an instance works with the database.</summary>
internal static class PostgresStart
{
    // Instances that start together upgrade one after the other. Any number will do that nobody else takes as a pair.
    private const string Alone = "SELECT pg_advisory_xact_lock(47162, 1)";

    private static readonly byte[] Sample = "HandFhirBridge"u8.ToArray();

    /// <exception cref="LedgerException">The database is of a later version, may lose commits, or is sealed with other keys.</exception>
    public static void Bring(NpgsqlDataSource source, PayloadSeal seal, ImmutableArray<string> scripts, TimeProvider clock)
    {
        using var connection = source.OpenConnection();
        DemandSafeCommits(connection);
        using var transaction = connection.BeginTransaction(IsolationLevel.ReadCommitted);
        connection.Execute(Alone, transaction: transaction);
        SqlMigrations.Bring(connection, transaction, scripts, clock);
        DemandSameKeys(connection, transaction, seal);
        transaction.Commit();
    }

    // PostgreSQL documentation, 20.5 "Write Ahead Log": with either off, a crash may lose transactions it confirmed.
    private static void DemandSafeCommits(NpgsqlConnection connection)
    {
        var (fsync, commit) = connection.QuerySingle<(string, string)>("SELECT current_setting('fsync'), current_setting('synchronous_commit')");
        if (fsync == "off" || commit == "off")
        {
            throw new LedgerException(LedgerProblems.UnsafeCommits.At(
                "Ledger", $"PostgreSQL runs with fsync = {fsync} and synchronous_commit = {commit} for the ledger's database."));
        }
    }

    /// <summary>The first instance leaves a sealed sample; whoever cannot open it would hold every session of the others.</summary>
    private static void DemandSameKeys(NpgsqlConnection connection, NpgsqlTransaction transaction, PayloadSeal seal)
    {
        if (seal.Scheme is not { } scheme)
        {
            return;
        }

        if (connection.QuerySingleOrDefault<byte[]>("SELECT sample FROM seals WHERE scheme = @scheme", new { scheme }, transaction) is not { } kept)
        {
            connection.Execute("INSERT INTO seals (scheme, sample) VALUES (@scheme, @sample)", new { scheme, sample = seal.Seal(Sample) }, transaction);
            return;
        }

        try
        {
            seal.Open(scheme, kept, "the ledger");
        }
        catch (LedgerException failure)
        {
            throw new LedgerException(LedgerProblems.OtherKeys.At("Ledger", "The sample that other instances left in the ledger cannot be unsealed."), failure);
        }
    }
}
