using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>What can stand in the way of removing identities, HFB74xx.</summary>
public static class DeidentificationProblems
{
    /// <summary>HFB7401: Key file not readable.</summary>
    public static readonly ProblemKind KeyNotReadable = new("HFB7401", Severity.Error, "not-found", 500, false,
        "Key file not readable", "Name the project's key file and let this account read it.");

    /// <summary>HFB7402: Key file holds no key.</summary>
    public static readonly ProblemKind KeyUnusable = new("HFB7402", Severity.Error, "value", 500, false,
        "Key file holds no key", "Make a new key file; pseudonyms of another key are others.");

    /// <summary>All of them, in the order of their codes.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(DeidentificationProblems));
}
