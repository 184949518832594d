namespace HandFhirBridge.Record.Storage;

/// <summary>One value of one search parameter of one resource, ready for the table of its kind.</summary>
/// <param name="Table">Table of <see cref="RecordSchema"/>.</param>
/// <param name="Columns">Values in the order of the table's columns, without the resource's number, which comes last.</param>
/// <param name="Group">
/// From 1: which element of the resource the value belongs to, so that the parts of a composite are found together; 0 for other parameters.
/// </param>
internal sealed record IndexRow(string Table, IReadOnlyList<object> Columns, int Group = 0)
{
    /// <summary>Numbers of elements are kept below zero: resource times this, plus the group.</summary>
    public const long Groups = 1_000_000;

    /// <summary>What stands in the table for the resource with the number <paramref name="rid"/>.</summary>
    public long Owner(long rid) => Group == 0 ? rid : -((rid * Groups) + Group);

    public static IndexRow Token(long key, string? system, string code) => new("token", [key, code, system ?? ""]);

    public static IndexRow Reference(long key, string target, string? system, string? value) =>
        new("reference", [key, target, system ?? "", value ?? ""]);

    public static IndexRow Span(long key, long low, long high) => new("span", [key, low, high]);

    public static IndexRow Text(long key, string plain, string exact) => new("text", [key, plain, exact]);

    public static IndexRow Amount(long key, double low, double high, double value, string? system, string? code, string? unit) =>
        new("amount", [key, low, high, value, system ?? "", code ?? "", unit ?? ""]);
}
