using System.Data;
using Dapper;
using Npgsql;

namespace HandFhirBridge.Delivery.Ledger.Postgres;

/// <summary>A turn at a gate among instances: an open transaction that holds a lock and nothing else.</summary>
internal sealed class PostgresTurn(NpgsqlConnection connection) : IAsyncDisposable
{
    private NpgsqlTransaction? transaction;

    /// <summary>Waits as long as it takes; who is before us may be waiting for a slow target.</summary>
    public async Task EnterAsync(string name, CancellationToken cancellation)
    {
        transaction = await connection.BeginTransactionAsync(IsolationLevel.ReadCommitted, cancellation);
        await connection.ExecuteAsync(new CommandDefinition(
            "SELECT pg_advisory_xact_lock(47162, hashtext(@name))", new { name }, transaction, commandTimeout: 0, cancellationToken: cancellation));
    }

    /// <summary>Rolls back, which lets go of the lock; a broken connection has let go of it already.</summary>
    public async ValueTask DisposeAsync()
    {
        if (transaction is not null)
        {
            await transaction.DisposeAsync();
        }

        await connection.DisposeAsync();
    }
}
