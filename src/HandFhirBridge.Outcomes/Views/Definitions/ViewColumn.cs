using System.Collections.Immutable;

namespace HandFhirBridge.Outcomes.Views.Definitions;

/// <summary>A column as a view defines it.</summary>
/// <param name="Name">Letters, digits and underscores, beginning with a letter.</param>
/// <param name="Path">What gives its value.</param>
/// <param name="Type">FHIR type as declared; null where none is, which is read as <c>string</c>.</param>
/// <param name="Collection">True if a row may hold several values of it.</param>
/// <param name="Description">Meaning in words; null if none is given.</param>
/// <param name="SqlType">Type in ANSI SQL that the tag <c>ansi/type</c> asks for, such as <c>DECIMAL(9,3)</c>; null for the usual one.</param>
public sealed record ViewColumn(string Name, ViewPath Path, string? Type, bool Collection, string? Description, string? SqlType)
{
    /// <summary>Tag by which a view asks for a type in ANSI SQL (SQL on FHIR v2, type hinting).</summary>
    public const string SqlTypeTag = "ansi/type";

    /// <summary>Names of the columns in a list, for sentences.</summary>
    internal static string Names(ImmutableArray<ViewColumn> columns) => string.Join(", ", columns.Select(c => c.Name));
}
