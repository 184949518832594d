using System.Collections.Immutable;
using System.Data;
using Dapper;
using HandFhirBridge.Delivery.Ledger.Sql;
using Npgsql;

namespace HandFhirBridge.Delivery.Ledger.Postgres;

/// <summary>A PostgreSQL database that several instances may share.</summary>
internal sealed class PostgresStore : ISqlStore
{
    /// <summary>Each lost race means that another instance got on, so waiting in line ends; this only bounds it.</summary>
    private const int MostTries = 20;

    private readonly PostgresDialect dialect = new();
    private readonly NpgsqlDataSource source;
    private readonly string database;

    public PostgresStore(string connectionString, PayloadSeal seal, ImmutableArray<string> scripts, TimeProvider clock)
    {
        var settings = new NpgsqlConnectionStringBuilder(connectionString);
        settings.ApplicationName ??= "HandFhirBridge";
        database = $"{settings.Host}/{settings.Database ?? settings.Username}";
        source = NpgsqlDataSource.Create(settings);
        try
        {
            PostgresStart.Bring(source, seal, scripts, clock);
        }
        catch (NpgsqlException failure)
        {
            source.Dispose();
            throw new LedgerException(PostgresFailures.Describe(failure, database), failure);
        }
        catch (LedgerException)
        {
            source.Dispose();
            throw;
        }
    }

    public Task<T> ReadAsync<T>(Func<SqlScope, Task<T>> read, CancellationToken cancellation) => RunAsync(
        async connection => await read(new(connection, null, dialect, cancellation)), cancellation);

    public Task<T> WriteAsync<T>(Func<SqlScope, Task<T>> write, CancellationToken cancellation) => RunAsync(
        async connection =>
        {
            await using var transaction = await connection.BeginTransactionAsync(IsolationLevel.ReadCommitted, cancellation);
            var result = await write(new(connection, transaction, dialect, cancellation));
            // Not to be given up half way: whether it was committed would then be anybody's guess.
            await transaction.CommitAsync(CancellationToken.None);
            return result;
        },
        cancellation);

    /// <summary>
    /// A lock that lasts as long as a transaction of its own. Not one of the session: a connection given back to the pool
    /// keeps those until it is used again, and a pooler between us and the server does not keep them at all.
    /// </summary>
    public Task<IAsyncDisposable> EnterAsync(string name, CancellationToken cancellation) => TranslateAsync<IAsyncDisposable>(async () =>
    {
        var turn = new PostgresTurn(await source.OpenConnectionAsync(cancellation));
        try
        {
            await turn.EnterAsync(name, cancellation);
            return turn;
        }
        catch
        {
            await turn.DisposeAsync();
            throw;
        }
    });

    public void Dispose() => source.Dispose();

    private Task<T> RunAsync<T>(Func<NpgsqlConnection, Task<T>> work, CancellationToken cancellation) =>
        TranslateAsync(() => RepeatAsync(work, cancellation));

    private async Task<T> RepeatAsync<T>(Func<NpgsqlConnection, Task<T>> work, CancellationToken cancellation)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                await using var connection = await source.OpenConnectionAsync(cancellation);
                return await work(connection);
            }
            catch (PostgresException lost) when (attempt < MostTries && PostgresFailures.IsLostRace(lost))
            {
                // Another instance was quicker; what it committed is seen now.
            }
            catch (NpgsqlException lost) when (attempt == 1 && PostgresFailures.IsLostConnection(lost))
            {
                // A connection kept from before a restart of the server. Every write says the same when it is said again:
                // what was accepted already is answered so, and a lease whose commit was not heard of runs out.
            }
        }
    }

    private async Task<T> TranslateAsync<T>(Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (NpgsqlException failure)
        {
            throw new LedgerException(PostgresFailures.Describe(failure, database), failure);
        }
    }
}
