using HandFhirBridge.Outcomes.Views;

namespace HandFhirBridge.Outcomes.Rows;

/// <summary>Types of SQL for columns of rows.</summary>
internal static class SqlTypes
{
    /// <summary>Type of a column; decimals have room for what measurements need where the view does not say.</summary>
    public static string Of(RowColumn column)
    {
        var type = column.SqlType ?? column.Kind switch
        {
            ColumnKind.Flag => "BOOLEAN",
            ColumnKind.Whole => "INTEGER",
            ColumnKind.LargeWhole => "BIGINT",
            ColumnKind.Number => "DECIMAL(18,6)",
            _ => "VARCHAR",
        };
        return column.Collection ? type + "[]" : type;
    }

    /// <summary>A name in double quotes.</summary>
    public static string Name(string name) => $"\"{name.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    /// <summary>A text in single quotes.</summary>
    public static string Text(string text) => $"'{text.Replace("'", "''", StringComparison.Ordinal)}'";
}
