using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>What came of looking for the chart: exactly one of the three is there.</summary>
/// <param name="Match">The chart.</param>
/// <param name="Doubt">Why a person must decide.</param>
/// <param name="Failure">The target's answer that stood in the way of looking.</param>
public sealed record PatientLookup(PatientMatch? Match, Problem? Doubt, TargetAnswer? Failure)
{
    internal static PatientLookup Of(PatientMatch match) => new(match, null, null);

    internal static PatientLookup Of(Problem doubt) => new(null, doubt, null);

    internal static PatientLookup Of(TargetAnswer failure) => new(null, null, failure);
}
