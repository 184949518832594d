using System.Globalization;
using Dapper;
using HandFhirBridge.Assessment.Problems;
using Microsoft.Data.Sqlite;

namespace HandFhirBridge.Delivery.Ledger.Sqlite;

/// <summary>The file: opens connections, lets one writer of this process in at a time, and says plainly what stands in the way.</summary>
internal sealed class SqliteStore : IDisposable
{
    // https://www.sqlite.org/rescode.html
    private const int Busy = 5, Locked = 6, Corrupt = 11, Full = 13, NotADatabase = 26;

    private readonly SemaphoreSlim writer = new(1, 1);
    private readonly string connectionString;
    private readonly string path;
    private readonly int busyMilliseconds;

    public SqliteStore(string path, TimeSpan busyTimeout, TimeProvider clock)
    {
        this.path = Path.GetFullPath(path);
        busyMilliseconds = (int)busyTimeout.TotalMilliseconds;
        connectionString = new SqliteConnectionStringBuilder { DataSource = this.path, DefaultTimeout = 1, ForeignKeys = true }.ToString();
        Guard(() =>
        {
            Create();
            using var connection = Open();
            SqliteSchema.Bring(connection, clock);
            return 0;
        });
    }

    /// <summary>Reads.</summary>
    public T Read<T>(Func<SqliteConnection, T> read) => Guard(() =>
    {
        using var connection = Open();
        return read(connection);
    });

    /// <summary>Writes in one transaction that takes the write lock at once, so that it cannot fail half way for want of it.</summary>
    public async Task<T> WriteAsync<T>(Func<SqliteConnection, SqliteTransaction, T> write, CancellationToken cancellation)
    {
        await writer.WaitAsync(cancellation);
        try
        {
            return Guard(() =>
            {
                using var connection = Open();
                using var transaction = connection.BeginTransaction(deferred: false);
                var result = write(connection, transaction);
                transaction.Commit();
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

    private T Guard<T>(Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException failure)
        {
            var kind = failure.SqliteErrorCode switch
            {
                Busy or Locked => LedgerProblems.Locked,
                Corrupt or NotADatabase => LedgerProblems.Corrupt,
                Full => LedgerProblems.DiskFull,
                _ => LedgerProblems.Unusable,
            };
            throw new LedgerException(Describe(kind, $"SQLite error {failure.SqliteErrorCode}"), failure);
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new LedgerException(Describe(LedgerProblems.Unusable, failure.GetType().Name), failure);
        }
    }

    private Problem Describe(ProblemKind kind, string what) => kind.At("Ledger", $"{kind.Title}: {path} ({what}).", path);
}
