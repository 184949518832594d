using System.Collections.Immutable;
using System.Globalization;
using Dapper;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger.Sql;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>The file: opens connections, lets one writer of this process in at a time, and says plainly what stands in the way.</summary>
internal sealed class SqliteStore : ISqlStore
{
    // https://www.sqlite.org/rescode.html
    private const int Busy = 5, Locked = 6, Corrupt = 11, Full = 13, NotADatabase = 26;

    private readonly SqliteDialect dialect = new();
    private readonly SemaphoreSlim writer = new(1, 1);
    private readonly string connectionString;
    private readonly string path;
    private readonly int busyMilliseconds;

    public SqliteStore(string path, TimeSpan busyTimeout, ImmutableArray<string> scripts, TimeProvider clock)
    {
        this.path = Path.GetFullPath(path);
        busyMilliseconds = (int)busyTimeout.TotalMilliseconds;
        connectionString = new SqliteConnectionStringBuilder { DataSource = this.path, DefaultTimeout = 1, ForeignKeys = true }.ToString();
        try
        {
            Create();
            using var connection = Open();
            connection.Execute("PRAGMA journal_mode = WAL");
            using var transaction = connection.BeginTransaction(deferred: false);
            SqlMigrations.Bring(connection, transaction, scripts, clock);
            transaction.Commit();
        }
        catch (Exception failure) when (Describe(failure) is { } problem)
        {
            throw new LedgerException(problem, failure);
        }
    }

    public Task<T> ReadAsync<T>(Func<SqlScope, Task<T>> read, CancellationToken cancellation) => Guard(async () =>
    {
        await using var connection = Open();
        return await read(new(connection, null, dialect, cancellation));
    });

    /// <summary>The transaction takes the write lock at once, so that it cannot fail half way for want of it.</summary>
    public async Task<T> WriteAsync<T>(Func<SqlScope, Task<T>> write, CancellationToken cancellation)
    {
        await writer.WaitAsync(cancellation);
        try
        {
            return await Guard(async () =>
            {
                await using var connection = Open();
                await using var transaction = connection.BeginTransaction(deferred: false);
                var result = await write(new(connection, transaction, dialect, cancellation));
                await transaction.CommitAsync(CancellationToken.None);
                return result;
            });
        }
        finally
        {
            writer.Release();
        }
    }

    public void Dispose()
    {
        writer.Dispose();
        using var connection = new SqliteConnection(connectionString);
        SqliteConnection.ClearPool(connection);
    }

    /// <summary>Only the service's own account may read the file; SQLite gives its log the same mode.</summary>
    private void Create()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        if (!File.Exists(path))
        {
            var options = new FileStreamOptions { Mode = FileMode.OpenOrCreate, Access = FileAccess.ReadWrite };
            if (!OperatingSystem.IsWindows())
            {
                options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            }

            new FileStream(path, options).Dispose();
        }
    }

    private SqliteConnection Open()
    {
        var connection = new SqliteConnection(connectionString);
        connection.Open();
        connection.Execute($"PRAGMA busy_timeout = {busyMilliseconds.ToString(CultureInfo.InvariantCulture)}; PRAGMA synchronous = FULL");
        return connection;
    }

    private async Task<T> Guard<T>(Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (Exception failure) when (Describe(failure) is { } problem)
        {
            throw new LedgerException(problem, failure);
        }
    }

    /// <summary>What a failure means to whoever runs the service; null if it is none of the store's.</summary>
    private Problem? Describe(Exception failure) => failure switch
    {
        SqliteException sqlite => Say(
            sqlite.SqliteErrorCode switch
            {
                Busy or Locked => LedgerProblems.Locked,
                Corrupt or NotADatabase => LedgerProblems.Corrupt,
                Full => LedgerProblems.DiskFull,
                _ => LedgerProblems.Unusable,
            },
            $"SQLite error {sqlite.SqliteErrorCode}"),
        IOException or UnauthorizedAccessException => Say(LedgerProblems.Unusable, failure.GetType().Name),
        _ => null,
    };

    private Problem Say(ProblemKind kind, string what) => kind.At("Ledger", $"{kind.Title}: {path} ({what}).", path);
}
