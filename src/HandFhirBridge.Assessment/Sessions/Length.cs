namespace HandFhirBridge.Assessment.Sessions;

/// <summary>A length as it was measured and written.</summary>
/// <param name="Value">Number with its digits as entered.</param>
/// <param name="Unit">Unit of the number.</param>
public sealed record Length(decimal Value, LengthUnit Unit)
{
    /// <summary>The same length in inches; 1 in = 2.54 cm exactly (international inch).</summary>
    public decimal Inches => Unit == LengthUnit.Inch ? Value : Value / 2.54m;
}
