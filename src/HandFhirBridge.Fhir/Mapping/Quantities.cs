using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Quantities in UCUM, digits as they came.</summary>
internal static class Quantities
{
    public const string Second = "s";
    public const string Score = "{score}";
    public const string Percent = "%";
    public const string Year = "a";
    public const string Inch = "[in_i]";
    public const string Centimetre = "cm";

    public static Quantity Seconds(decimal value) => Of(value, Second, "s");

    public static Quantity ZScore(decimal value) => Of(value, Score, "z");

    public static Quantity LateralityQuotient(decimal value) => Of(value, Score, "points");

    public static Quantity PercentOf(decimal value) => Of(value, Percent, "%");

    public static Quantity Years(int value) => Of(value, Year, "years");

    public static Quantity Of(Length length) =>
        length.Unit == LengthUnit.Inch ? Of(length.Value, Inch, "in") : Of(length.Value, Centimetre, "cm");

    private static Quantity Of(decimal value, string code, string unit) =>
        new() { Value = value, Unit = unit, System = CodeSystems.Ucum, Code = code };
}
