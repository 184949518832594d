namespace HandFhirBridge.Outcomes.Summaries;

/// <summary>What results can be told apart by.</summary>
public enum SummaryDimension
{
    /// <summary>Task of the instrument.</summary>
    Task,

    /// <summary>Dominant or non-dominant.</summary>
    HandRole,

    /// <summary>Left or right.</summary>
    Hand,

    /// <summary>The record's administrative gender of the patient; <c>unknown</c> where the record gives none.</summary>
    Sex,

    /// <summary>Age on the day, in tens of years; 90 and above are one band.</summary>
    AgeBand,

    /// <summary>Clinic.</summary>
    Site,

    /// <summary>Time since the patient's first session there: <c>first</c>, <c>6 weeks</c> (28 to 56 days), <c>12 weeks</c> (70 to 98 days), <c>other</c>.</summary>
    Interval,

    /// <summary>A coded condition of the patient, <c>system|code</c>; a patient with several counts under each, one without any under <c>none recorded</c>.</summary>
    Condition,
}
