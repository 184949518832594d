using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Sessions;

/// <summary>How the table was laid.</summary>
/// <param name="Glasses">Whether glasses were worn.</param>
/// <param name="TemplateBoard">True if a template board lay on the table; it changes times on two tasks.</param>
/// <param name="CapSeconds">Longest time allowed per trial in this session, in seconds; null if no cap was in force.</param>
/// <param name="TableHeight">Height of the table top; null if not measured.</param>
/// <param name="ChairHeight">Height of the chair's seat; null if not measured.</param>
/// <param name="EdgeToItems">Distance from the table's front edge to the items; null if not measured.</param>
/// <param name="BetweenItems">Distance between items; null if not measured.</param>
/// <param name="ItemsReplaced">Materials that were not the instrument's own.</param>
/// <param name="Kit">The kit used; null if not named.</param>
public sealed record Setup(
    Glasses Glasses,
    bool TemplateBoard,
    decimal? CapSeconds,
    Length? TableHeight,
    Length? ChairHeight,
    Length? EdgeToItems,
    Length? BetweenItems,
    ImmutableArray<ItemReplaced> ItemsReplaced,
    Kit? Kit);
