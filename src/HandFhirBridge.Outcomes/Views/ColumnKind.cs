namespace HandFhirBridge.Outcomes.Views;

/// <summary>What the values of a column are in the program: the type of the cells in a row.</summary>
public enum ColumnKind
{
    /// <summary><see cref="string"/>: text, codes, and dates and times as they are written, whose precision a date of SQL would lose.</summary>
    Text,

    /// <summary><see cref="bool"/>.</summary>
    Flag,

    /// <summary><see cref="int"/>.</summary>
    Whole,

    /// <summary><see cref="long"/>.</summary>
    LargeWhole,

    /// <summary><see cref="decimal"/>, with the digits as written.</summary>
    Number,
}
