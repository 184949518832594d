using System.Collections.Immutable;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Norms;

/// <summary>Expected failures of norm tables that a site enters, HFB2xxx.</summary>
public static class NormProblems
{
    /// <summary>A cell names a task the instrument does not have.</summary>
    public static ProblemKind UnknownTask { get; } = Kind("HFB2001", "Unknown task", "Use a task id of the instrument.");

    /// <summary>A mean is not above zero, or above what the instrument takes for a time.</summary>
    public static ProblemKind ImpossibleMean { get; } = Kind("HFB2002", "Impossible mean", "Type the mean as it is printed, in seconds.");

    /// <summary>A standard deviation is not above zero, or larger than the mean.</summary>
    public static ProblemKind ImpossibleDeviation { get; } = Kind("HFB2003", "Impossible standard deviation", "Type the standard deviation as it is printed; a standard error is not one.");

    /// <summary>An age band ends before it begins or is beyond human age.</summary>
    public static ProblemKind ImpossibleBand { get; } = Kind("HFB2004", "Impossible age band", "Type youngest and oldest age in whole years.");

    /// <summary>Two bands of the same task, hand role and sex share an age.</summary>
    public static ProblemKind OverlappingBands { get; } = Kind("HFB2005", "Overlapping age bands", "Each age belongs to one band; correct the ages.");

    /// <summary>The table has no cell.</summary>
    public static ProblemKind EmptyTable { get; } = Kind("HFB2006", "Empty table", "Type at least one row.");

    /// <summary>Both entries were typed by the same person.</summary>
    public static ProblemKind SamePerson { get; } = Kind("HFB2007", "Both entries by the same person", "Let a second person type the table from the source.");

    /// <summary>A cell differs between the two entries, or stands in one only.</summary>
    public static ProblemKind CellsDiffer { get; } = Kind("HFB2008", "The entries differ", "Look the cell up in the source and correct the entry that is wrong.");

    /// <summary>Instrument, title or source differ between the two entries.</summary>
    public static ProblemKind HeadsDiffer { get; } = Kind("HFB2009", "The entries are not of the same table", "Enter the same instrument, title and source both times.");

    /// <summary>A field of a row cannot be read.</summary>
    public static ProblemKind UnreadableField { get; } = Kind("HFB2010", "Unreadable field", "Correct the field; docs/norms.md describes the columns. Numbers have a decimal point.");

    /// <summary>The file lacks a column.</summary>
    public static ProblemKind MissingColumn { get; } = Kind("HFB2011", "Missing column", "Add the column; docs/norms.md lists them.");

    /// <summary>A row has too few or too many fields, a quotation mark out of place, or is not UTF-8.</summary>
    public static ProblemKind UnreadableRow { get; } = Kind("HFB2012", "Unreadable row", "Give the row one field per column, and quote fields that contain the separator.");

    /// <summary>The file has a column that no norm table has, or one twice.</summary>
    public static ProblemKind UnknownColumn { get; } = Kind("HFB2013", "Column that does not belong", "Remove the column or correct its name; docs/norms.md lists them.");

    /// <summary>Set id, title, citation or person is missing.</summary>
    public static ProblemKind IncompleteHead { get; } = Kind("HFB2014", "The entry does not say what it is", "Give set id, title, source and the name of whoever typed it.");

    /// <summary>The set id belongs to a set that comes with the product.</summary>
    public static ProblemKind SetIdTaken { get; } = Kind("HFB2015", "Norm set id already taken", "Choose another id; scores name their norm set by it.");

    /// <summary>A sample of fewer than two.</summary>
    public static ProblemKind ImpossibleSampleSize { get; } = Kind("HFB2016", "Impossible sample size", "Type the number of persons as it is printed, or leave n empty.");

    /// <summary>Mean and standard deviation cannot come from the printed range of times.</summary>
    public static ProblemKind RangeDoesNotFit { get; } = Kind("HFB2017", "Mean and standard deviation do not fit the range", "Look the cell up in the source: mean, standard deviation or range is mistyped.");

    /// <summary>Every kind of this table.</summary>
    public static ImmutableArray<ProblemKind> All { get; } = ProblemTable.Of(typeof(NormProblems));

    private static ProblemKind Kind(string code, string title, string remedy) =>
        new(code, Severity.Error, "business-rule", 422, false, title, remedy);
}
