using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Outcomes.Views;

/// <summary>What can be wrong with a view, HFB70xx. Nothing is guessed: a view runs as it is written, or not at all.</summary>
public static class ViewProblems
{
    /// <summary>HFB7001: Not a ViewDefinition.</summary>
    public static readonly ProblemKind NotAView = Error("HFB7001", "structure",
        "Not a ViewDefinition", "Give a ViewDefinition of SQL on FHIR v2 as JSON.");

    /// <summary>HFB7002: Element of the view missing.</summary>
    public static readonly ProblemKind ElementMissing = Error("HFB7002", "required",
        "Element of the view missing", "Add the element to the ViewDefinition.");

    /// <summary>HFB7003: Element of the view not understood.</summary>
    public static readonly ProblemKind NotUnderstood = Error("HFB7003", "value",
        "Element of the view not understood", "Correct the element; SQL on FHIR v2 says what it may hold.");

    /// <summary>HFB7004: Expression of the view invalid.</summary>
    public static readonly ProblemKind InvalidPath = Error("HFB7004", "value",
        "Expression of the view invalid", "Correct the FHIRPath expression.");

    /// <summary>HFB7005: Unknown constant.</summary>
    public static readonly ProblemKind UnknownConstant = Error("HFB7005", "not-found",
        "Unknown constant", "Define the constant in the view, or correct its name.");

    /// <summary>HFB7006: Column defined twice.</summary>
    public static readonly ProblemKind ColumnTwice = Error("HFB7006", "duplicate",
        "Column defined twice", "Give each column of the view a name of its own.");

    /// <summary>HFB7007: Columns of a union differ.</summary>
    public static readonly ProblemKind UnionDiffers = Error("HFB7007", "invalid",
        "Columns of a union differ", "Give all selections of a unionAll the same columns in the same order.");

    /// <summary>HFB7008: Several values for one column.</summary>
    public static readonly ProblemKind SeveralValues = Error("HFB7008", "multiple-matches",
        "Several values for one column", "Take one in the path, unnest them with forEach, or mark the column as a collection.");

    /// <summary>HFB7009: Value does not fit its column.</summary>
    public static readonly ProblemKind ValueDoesNotFit = Error("HFB7009", "value",
        "Value does not fit its column", "Correct the column's type or path; a column holds primitive values only.");

    /// <summary>HFB7010: Condition is not true or false.</summary>
    public static readonly ProblemKind NotACondition = Error("HFB7010", "value",
        "Condition is not true or false", "Write a where path that gives one boolean or nothing.");

    /// <summary>All of them, in the order of their codes.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(ViewProblems));

    private static ProblemKind Error(string code, string issueType, string title, string remedy) =>
        new(code, Severity.Error, issueType, 422, false, title, remedy);
}
