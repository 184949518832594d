using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Views.Definitions;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>The project's own views, as they lie in <c>profiles/views</c>: trials, totals, reports, patients, conditions.</summary>
public static class StandardViews
{
    private const string Folder = "views/";

    /// <summary>All of them, in ordinal order of their names.</summary>
    public static ImmutableArray<ViewDefinition> All { get; } = ReadAll();

    /// <summary>The view of a name.</summary>
    /// <param name="name">Such as <c>trials</c>.</param>
    /// <returns>Null if there is none of that name.</returns>
    public static ViewDefinition? Named(string name) => All.FirstOrDefault(view => view.Name == name);

    private static ImmutableArray<ViewDefinition> ReadAll()
    {
        var assembly = typeof(StandardViews).Assembly;
        return
        [
            .. assembly.GetManifestResourceNames().Where(name => name.StartsWith(Folder, StringComparison.Ordinal)).Select(name =>
            {
                using var stream = assembly.GetManifestResourceStream(name)!;
                using var text = new MemoryStream();
                stream.CopyTo(text);
                return ViewDefinitionReader.Read(text.ToArray());
            }).OrderBy(view => view.Name, StringComparer.Ordinal),
        ];
    }
}
