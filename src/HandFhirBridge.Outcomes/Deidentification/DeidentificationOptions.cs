namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>How identities are removed.</summary>
/// <param name="Key">Makes the pseudonyms.</param>
/// <param name="AsOf">Day on which ages over 89 are told, usually today: the oldest a person can be in what leaves.</param>
public sealed record DeidentificationOptions(ProjectKey Key, DateOnly AsOf)
{
    /// <summary>What becomes of dates. Default: the year is left.</summary>
    public DateRule Dates { get; init; } = DateRule.Year;

    /// <summary>What may be said of the output, for those who get it.</summary>
    public string Statement =>
        (Dates == DateRule.Year
            ? "Identifiers of 45 CFR 164.514(b)(2)(i)(A) to (R) were removed; dates are years. "
            : "Not de-identified by the safe harbor method: dates with a day remain, moved by a number of days kept secret for each patient (45 CFR 164.514(b)(2)(i)(C) allows years alone). An expert's determination under (b)(1) is needed. ")
        + "Pseudonyms are codes made with a secret key; whether paragraph (c) allows them is for the covered entity to determine, as it is whether it knows of another way to identify somebody ((b)(2)(ii)). "
        + "Groups of few persons may be told by what they have in common.";
}
