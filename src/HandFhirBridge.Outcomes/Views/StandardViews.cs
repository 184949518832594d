using System.Collections.Immutable;
using HandFhirBridge.Outcomes.Views.Definitions;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>The project's own views, as they lie in <c>profiles/views</c>: trials, totals, reports, patients, conditions.</summary>
public static class StandardViews
{
    private const string Prefix = "views/ViewDefinition-hfb-";
    private const string Suffix = ".json";

    // Read when first asked for: every command names the views in its help, few use them.
    private static readonly Lazy<ImmutableArray<ViewDefinition>> Read = new(ReadAll);

    /// <summary>Their names, in ordinal order. They are the ends of the files' names, so that nothing is read to tell them.</summary>
    public static ImmutableArray<string> Names { get; } =
    [
        .. typeof(StandardViews).Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal) && name.EndsWith(Suffix, StringComparison.Ordinal))
            .Select(name => name[Prefix.Length..^Suffix.Length])
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>All of them, in the order of <see cref="Names"/>.</summary>
    public static ImmutableArray<ViewDefinition> All => Read.Value;

    /// <summary>The view of a name.</summary>
    /// <param name="name">Such as <c>trials</c>.</param>
    /// <returns>Null if there is none of that name.</returns>
    public static ViewDefinition? Named(string name) => All.FirstOrDefault(view => view.Name == name);

    private static ImmutableArray<ViewDefinition> ReadAll() =>
    [
        .. Names.Select(name =>
        {
            using var stream = typeof(StandardViews).Assembly.GetManifestResourceStream(Prefix + name + Suffix)!;
            using var text = new MemoryStream();
            stream.CopyTo(text);
            return ViewDefinitionReader.Read(text.ToArray());
        }),
    ];
}
