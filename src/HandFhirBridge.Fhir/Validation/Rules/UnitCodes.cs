using System.Collections.Frozen;

namespace HandFhirBridge.Fhir.Validation.Rules;

/// <summary>
/// The UCUM codes this project writes, by meaning. A list, because value sets of the specification let every UCUM-like
/// text pass; each code is checked against UCUM libraries by tests. Source: UCUM 2.1, https://ucum.org/ucum.
/// </summary>
internal static class UnitCodes
{
    internal const string System = "http://unitsofmeasure.org";

    /// <summary>Second, per cent, score points, year of age, inch, centimetre.</summary>
    internal static readonly FrozenSet<string> All =
        new[] { "s", "%", "{score}", "a", "[in_i]", "cm" }.ToFrozenSet(StringComparer.Ordinal);
}
