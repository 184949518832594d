using System.Collections;
using System.Collections.Immutable;
using DuckDB.NET.Data;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>The answer to a statement: its columns, and its rows one after the other.</summary>
public sealed class SqlAnswer : IDisposable
{
    private readonly DuckDBCommand command;
    private readonly DuckDBDataReader reader;

    private SqlAnswer(DuckDBCommand command, DuckDBDataReader reader)
    {
        this.command = command;
        this.reader = reader;
        Columns = [.. Enumerable.Range(0, reader.FieldCount).Select(reader.GetName)];
    }

    /// <summary>Names of the columns.</summary>
    public ImmutableArray<string> Columns { get; }

    /// <summary>Asks.</summary>
    /// <param name="connection">Open connection, as of <see cref="RowSet.Open"/>.</param>
    /// <param name="sql">The statement.</param>
    /// <exception cref="RowException">The engine refuses it.</exception>
    public static SqlAnswer Ask(DuckDBConnection connection, string sql)
    {
        ArgumentNullException.ThrowIfNull(connection);
        var command = connection.CreateCommand();
        try
        {
            command.CommandText = sql;
            return new(command, command.ExecuteReader());
        }
        catch (DuckDBException refused)
        {
            command.Dispose();
            throw Refused(refused);
        }
    }

    /// <summary>The rows; null where there is no value.</summary>
    /// <exception cref="RowException">The engine fails under way, such as by a cast of a value.</exception>
    public IEnumerable<object?[]> Rows()
    {
        while (Next())
        {
            var row = new object?[Columns.Length];
            for (var i = 0; i < row.Length; i++)
            {
                row[i] = reader.IsDBNull(i) ? null : Plain(reader.GetValue(i));
            }

            yield return row;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        reader.Dispose();
        command.Dispose();
    }

    private bool Next()
    {
        try
        {
            return reader.Read();
        }
        catch (DuckDBException refused)
        {
            throw Refused(refused);
        }
    }

    private static object? Plain(object? value) => value is IList list ? list.Cast<object?>().Select(Plain).ToArray() : value;

    private static RowException Refused(DuckDBException refused) =>
        new(RowProblems.SqlRefused.At("", $"The engine says: {refused.Message.Trim()}"), refused);
}
