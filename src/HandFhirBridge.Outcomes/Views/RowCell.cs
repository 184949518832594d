using HandFhirBridge.Outcomes.Views.Paths;
using Hl7.Fhir.FhirPath;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>A column, compiled.</summary>
/// <param name="place">Its place in the row.</param>
/// <param name="column">What it holds.</param>
/// <param name="expression">What gives its value.</param>
internal sealed class RowCell(int place, RowColumn column, ViewExpression expression)
{
    public int Place => place;

    public object? Value(PocoNode? focus, FhirEvaluationContext context)
    {
        var values = expression.Values(focus, context);
        return (column.Collection, values.Count) switch
        {
            (true, _) => values.Select(Convert).ToArray(),
            (false, 0) => null,
            (false, 1) => Convert(values[0]),
            _ => throw new ViewException(ViewProblems.SeveralValues.At(
                expression.Path.Location, $"The column {column.Name} (\"{expression.Path.Expression}\") has several values in {ViewExpression.Name(context)}.", expression.Path.Expression)),
        };
    }

    private object? Convert(Base value) => CellValue.TryConvert(value, column.Kind, out var cell)
        ? cell
        : throw new ViewException(ViewProblems.ValueDoesNotFit.At(
            expression.Path.Location, $"The column {column.Name} (\"{expression.Path.Expression}\") is to hold {Words(column.Kind)} and found a {value.TypeName}."));

    private static string Words(ColumnKind kind) => kind switch
    {
        ColumnKind.Flag => "true or false",
        ColumnKind.Whole or ColumnKind.LargeWhole => "a whole number",
        ColumnKind.Number => "a number",
        _ => "a primitive value",
    };
}
