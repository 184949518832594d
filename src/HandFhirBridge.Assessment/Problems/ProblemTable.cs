using System.Collections.Immutable;
using System.Reflection;

namespace HandFhirBridge.Assessment.Problems;

/// <summary>The kinds a table of expected failures declares, read from the table itself, so that none is left out of a list.</summary>
public static class ProblemTable
{
    /// <summary>Every public static field and property that is a kind, by code.</summary>
    /// <param name="table">Type that declares them; its own list of them is declared last.</param>
    public static ImmutableArray<ProblemKind> Of(Type table)
    {
        ArgumentNullException.ThrowIfNull(table);
        const BindingFlags declared = BindingFlags.Public | BindingFlags.Static;
        return
        [
            .. table.GetFields(declared).Select(field => field.GetValue(null))
                .Concat(table.GetProperties(declared).Where(property => property.PropertyType == typeof(ProblemKind)).Select(property => property.GetValue(null)))
                .OfType<ProblemKind>().OrderBy(kind => kind.Code, StringComparer.Ordinal),
        ];
    }
}
