using System.Globalization;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace HandFhirBridge.Record.Storage;

/// <summary>
/// A statement compiled once for a connection and run many times. A transaction of one session writes some eight hundred search values:
/// what the ADO.NET layer does beside SQLite on each of them (looking up parameters by name, among others) took most of the time.
/// </summary>
internal sealed class PreparedStatement : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly sqlite3_stmt statement;

    /// <param name="connection">Open connection, which must outlive the statement.</param>
    /// <param name="sql">One statement; its parameters are numbered from ?1.</param>
    public PreparedStatement(SqliteConnection connection, string sql)
    {
        this.connection = connection;
        Demand(raw.sqlite3_prepare_v2(connection.Handle, sql, out statement));
    }

    /// <summary>Runs it for its effect.</summary>
    public void Run(params ReadOnlySpan<object?> values) => One(static _ => true, values);

    /// <summary>What <paramref name="read"/> makes of its first row; default where there is none.</summary>
    public T? One<T>(Func<sqlite3_stmt, T> read, params ReadOnlySpan<object?> values)
    {
        try
        {
            for (var i = 0; i < values.Length; i++)
            {
                Bind(i + 1, values[i]);
            }

            var result = default(T);
            var step = raw.sqlite3_step(statement);
            if (step == raw.SQLITE_ROW)
            {
                result = read(statement);
                while (step == raw.SQLITE_ROW)
                {
                    step = raw.sqlite3_step(statement);
                }
            }

            Demand(step == raw.SQLITE_DONE ? raw.SQLITE_OK : step);
            return result;
        }
        finally
        {
            _ = raw.sqlite3_reset(statement);
        }
    }

    public void Dispose() => statement.Dispose();

    private void Bind(int place, object? value) => Demand(value switch
    {
        null => raw.sqlite3_bind_null(statement, place),
        string text => raw.sqlite3_bind_text(statement, place, text),
        long whole => raw.sqlite3_bind_int64(statement, place, whole),
        double real => raw.sqlite3_bind_double(statement, place, real),
        _ => throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Value {place} is a {value.GetType()}; text, long and double are bound."), nameof(value)),
    });

    private void Demand(int code) => SqliteException.ThrowExceptionForRC(code, connection.Handle);
}
