using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>Compares the verdict from memory with the one of the full validator.</summary>
internal static class Verdicts
{
    /// <summary>Null where both say the same, in the same order; else what each says.</summary>
    /// <param name="validator">The validator, whose memory grows with each verdict.</param>
    /// <param name="resource">Validated three times: in full, from memory, and once more in case the second was remembered.</param>
    /// <param name="isClean">Whether nothing was found.</param>
    internal static string? Difference(SessionValidator validator, Resource resource, out bool isClean)
    {
        var full = Told(validator.ValidateFully, resource);
        isClean = full.Length == 0;
        var first = Told(validator.Validate, resource);
        var second = isClean ? Told(validator.Validate, resource) : first;
        return full == first && full == second ? null : $"full: {full}{Environment.NewLine}from memory: {first}{Environment.NewLine}again: {second}";
    }

    private static string Told(Func<Resource, System.Collections.Immutable.ImmutableArray<HandFhirBridge.Assessment.Problems.Problem>> validate, Resource resource)
    {
        try
        {
            return string.Join(Environment.NewLine, validate(resource).Select(problem => $"{problem.Severity} {problem.Code} {problem.Location}: {problem.Message}"));
        }
        catch (Exception failure) when (failure is not OutOfMemoryException)
        {
            // The library throws at some resources that no program would make; then both must.
            return $"{failure.GetType().Name}: {failure.Message}";
        }
    }
}
