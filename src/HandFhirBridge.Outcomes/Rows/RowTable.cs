using System.Collections.Immutable;
using System.Globalization;
using DuckDB.NET.Data;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Rows on their way into a table of the embedded engine.</summary>
internal static class RowTable
{
    /// <summary>Makes the table and fills it.</summary>
    /// <param name="connection">Open connection.</param>
    /// <param name="name">Name of the table.</param>
    /// <param name="columns">Its columns.</param>
    /// <param name="rows">Cells in their order.</param>
    /// <param name="leftOut">Takes what is wrong with rows whose numbers have more digits than their columns; null makes the first one an error.</param>
    /// <returns>Rows written.</returns>
    /// <exception cref="RowException">A number has more digits than its column, and <paramref name="leftOut"/> is null.</exception>
    public static long Fill(DuckDBConnection connection, string name, ImmutableArray<RowColumn> columns, IEnumerable<object?[]> rows, ICollection<Problem>? leftOut)
    {
        Create(connection, name, columns);
        // Everything goes in as text and is cast by the engine: its appender rounds decimals that do not fit, a cast of a checked text cannot.
        var staging = name + "_text";
        Create(connection, staging, [.. columns.Select(c => new RowColumn(c.Name, ColumnKind.Text, c.Collection, null))]);
        var limits = columns.Select(DecimalLimit.Of).ToImmutableArray();
        var count = 0L;
        using (var appender = connection.CreateAppender(staging))
        {
            foreach (var row in rows)
            {
                if (row.Select((cell, i) => limits[i]?.Fault(name, columns[i].Name, cell)).FirstOrDefault(fault => fault is not null) is { } fault)
                {
                    (leftOut ?? throw new RowException(fault)).Add(fault);
                    continue;
                }

                var target = appender.CreateRow();
                for (var i = 0; i < row.Length; i++)
                {
                    _ = row[i] switch
                    {
                        null => target.AppendNullValue(),
                        object?[] several => target.AppendValue(several.Select(Text).ToList()),
                        var one => target.AppendValue(Text(one)),
                    };
                }

                target.EndRow();
                count++;
            }
        }

        Execute(connection, $"INSERT INTO {SqlTypes.Name(name)} SELECT {string.Join(", ", columns.Select(c => $"CAST({SqlTypes.Name(c.Name)} AS {SqlTypes.Of(c)})"))} FROM {SqlTypes.Name(staging)}");
        Execute(connection, $"DROP TABLE {SqlTypes.Name(staging)}");
        return count;
    }

    public static void Create(DuckDBConnection connection, string name, ImmutableArray<RowColumn> columns) =>
        Execute(connection, $"CREATE TABLE {SqlTypes.Name(name)} ({string.Join(", ", columns.Select(c => $"{SqlTypes.Name(c.Name)} {SqlTypes.Of(c)}"))})");

    public static void Execute(DuckDBConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    private static string Text(object? value) => Convert.ToString(value, CultureInfo.InvariantCulture)!;
}
