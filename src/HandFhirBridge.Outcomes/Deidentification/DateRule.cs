namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>What becomes of dates.</summary>
public enum DateRule
{
    /// <summary>The year is left, as 45 CFR 164.514(b)(2)(i)(C) asks for.</summary>
    Year,

    /// <summary>Each patient's dates are moved back by one number of days of that patient, so that intervals stay. Dates with a day remain: this is not safe harbor.</summary>
    Shifted,
}
