using System.Collections.Frozen;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations.Stats;

/// <summary>A code of the value set <c>observation-statistics</c> (R4), with its published display.</summary>
/// <param name="Code">Code.</param>
/// <param name="Display">Display.</param>
internal sealed record Statistic(string Code, string Display)
{
    public const string System = "http://terminology.hl7.org/CodeSystem/observation-statistics";
    public const string Count = "count";
    public const string TotalCount = "total-count";
    public const string Regression = "regression";

    /// <summary>The whole value set, by code.</summary>
    public static FrozenDictionary<string, Statistic> All { get; } = new Statistic[]
    {
        new("average", "Average"), new("maximum", "Maximum"), new("minimum", "Minimum"), new(Count, "Count"), new(TotalCount, "Total Count"),
        new("median", "Median"), new("std-dev", "Standard Deviation"), new("sum", "Sum"), new("variance", "Variance"),
        new("20-percent", "20th Percentile"), new("80-percent", "80th Percentile"), new("4-lower", "Lower Quartile"), new("4-upper", "Upper Quartile"),
        new("4-dev", "Quartile Deviation"), new("5-1", "1st Quintile"), new("5-2", "2nd Quintile"), new("5-3", "3rd Quintile"), new("5-4", "4th Quintile"),
        new("skew", "Skew"), new("kurtosis", "Kurtosis"), new(Regression, "Regression"),
    }.ToFrozenDictionary(s => s.Code, StringComparer.Ordinal);

    /// <summary>True where it is a number of observations, for which their values need not be comparable.</summary>
    public bool Counts => Code is Count or TotalCount;

    /// <summary>The code as a component carries it.</summary>
    /// <param name="text">What the component says in words; null for the display.</param>
    public CodeableConcept Concept(string? text = null) => new(System, Code, Display, text);
}
