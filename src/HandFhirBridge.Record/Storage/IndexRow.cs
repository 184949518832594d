namespace HandFhirBridge.Record.Storage;

/// <summary>One value of one search parameter of one resource, ready for the table of its kind.</summary>
/// <param name="Table">Table of <see cref="RecordSchema"/>.</param>
/// <param name="Columns">Values in the order of the table's columns, without the resource's number, which comes last.</param>
internal sealed record IndexRow(string Table, IReadOnlyList<object> Columns)
{
    public static IndexRow Token(string key, string? system, string code) => new("token", [key, code, system ?? ""]);

    public static IndexRow Reference(string key, string target, string? system, string? value) =>
        new("reference", [key, target, system ?? "", value ?? ""]);

    public static IndexRow Span(string key, long low, long high) => new("span", [key, low, high]);

    public static IndexRow Text(string key, string plain, string exact) => new("text", [key, plain, exact]);

    public static IndexRow Amount(string key, double low, double high, double value, string? system, string? code, string? unit) =>
        new("amount", [key, low, high, value, system ?? "", code ?? "", unit ?? ""]);
}
