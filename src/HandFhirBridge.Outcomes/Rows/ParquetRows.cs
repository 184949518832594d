using System.Collections.Immutable;
using DuckDB.NET.Data;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Outcomes.Views.Definitions;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Rows as Parquet files in Hive layout.</summary>
public static class ParquetRows
{
    private const string Site = "site";
    private const string Day = "day";
    private const string Month = "month";

    /// <summary>Writes the rows of a view.</summary>
    /// <param name="rows">The rows.</param>
    /// <param name="folder">Folder for the files; it is made.</param>
    /// <param name="leftOut">Takes what is wrong with resources that give no row; null makes the first one an error.</param>
    /// <returns>Rows written; without any there is no file.</returns>
    /// <exception cref="RowException">A line cannot be read, or a value has more digits than its column and <paramref name="leftOut"/> is null.</exception>
    /// <exception cref="ViewException">A resource does not fit the view, and <paramref name="leftOut"/> is null.</exception>
    public static long Write(ViewRows rows, string folder, ICollection<Problem>? leftOut = null)
    {
        ArgumentNullException.ThrowIfNull(rows);
        Directory.CreateDirectory(folder);
        using var connection = new DuckDBConnection("DataSource=:memory:");
        connection.Open();
        Limit(connection, folder);
        var columns = rows.Columns;
        var count = RowTable.Fill(connection, rows.Name, columns, rows.Read(leftOut), leftOut);
        if (count > 0)
        {
            var byMonth = ByMonth(columns);
            RowTable.Execute(connection, $"""
                COPY (SELECT *{(byMonth ? $", coalesce(strftime({Day}, '%Y-%m'), 'unknown') AS {Month}" : "")} FROM {SqlTypes.Name(rows.Name)} ORDER BY ALL)
                TO {SqlTypes.Text(folder)} (FORMAT parquet, COMPRESSION zstd, PARTITION_BY ({(byMonth ? $"{Site}, {Month}" : ViewRows.SourceColumn)}), OVERWRITE_OR_IGNORE)
                """);
        }

        return count;
    }

    /// <summary>Keeps the engine's memory small; what does not fit goes to a folder beside the files.</summary>
    internal static void Limit(DuckDBConnection connection, string folder)
    {
        RowTable.Execute(connection, $"SET temp_directory = {SqlTypes.Text(folder + ".tmp")}");
        RowTable.Execute(connection, "SET memory_limit = '512MB'");
    }

    /// <summary>The statement that reads the files of a view.</summary>
    /// <param name="folder">The view's folder.</param>
    internal static string Select(string folder) =>
        $"SELECT * FROM read_parquet({SqlTypes.Text(Path.GetFullPath(folder).Replace('\\', '/') + "/**/*.parquet")}, hive_partitioning = true, hive_types_autocast = false)";

    /// <summary>Columns of the table of a view, as its files give them.</summary>
    internal static ImmutableArray<RowColumn> Columns(ViewDefinition view)
    {
        var columns = new ViewRunner(view).Columns;
        var all = columns.Insert(0, new(ViewRows.SourceColumn, ColumnKind.Text, false, null));
        return ByMonth(all) ? all.Add(new(Month, ColumnKind.Text, false, null)) : all;
    }

    private static bool ByMonth(ImmutableArray<RowColumn> columns) => columns.Any(c => c.Name == Site) && columns.Any(c => c.Name == Day);
}
