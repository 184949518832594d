using HandFhirBridge.Outcomes.Views.Definitions;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>A column of the rows a view gives.</summary>
/// <param name="Name">Name.</param>
/// <param name="Kind">What its cells hold.</param>
/// <param name="Collection">True if a cell is a list (<c>object[]</c>) of such values.</param>
/// <param name="SqlType">ANSI SQL type the view asks for; null for the usual one of <paramref name="Kind"/>.</param>
public sealed record RowColumn(string Name, ColumnKind Kind, bool Collection, string? SqlType)
{
    internal static RowColumn Of(ViewColumn column) => new(column.Name, KindOf(column.Type), column.Collection, column.SqlType);

    // Primitive types of FHIR R4, datatypes.html#primitive, and integer64 of R5.
    private static ColumnKind KindOf(string? type) => type switch
    {
        "boolean" => ColumnKind.Flag,
        "integer" or "positiveInt" or "unsignedInt" => ColumnKind.Whole,
        "integer64" => ColumnKind.LargeWhole,
        "decimal" => ColumnKind.Number,
        _ => ColumnKind.Text,
    };
}
