using System.Diagnostics;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Benchmarks;

/// <summary>A warm verdict per bundle over all example sessions, against the library's default validator, both shared and warm.</summary>
internal static class ValidateWarm
{
    internal static Ratio Measure(int runs)
    {
        var bundles = Corpus.Paths.Select(Corpus.Bundle).ToArray();
        var ours = SessionValidator.Shared;
        var other = LibraryDefaults.Create();
        double Ours() => PerBundle(bundles, bundle => ours.Validate(bundle).Length);
        double Other() => PerBundle(bundles, bundle => other.Validate(bundle).Issue.Count);
        Ours();
        Other();
        var (mine, theirs) = Alternating.Measure(runs, Ours, Other);
        return new("validateWarm", mine, theirs, "ms a bundle", "the library's validator with its default settings, the SDK's full definitions and terminology service, shared and warm");
    }

    private static double PerBundle(Bundle[] bundles, Func<Bundle, int> validate)
    {
        var start = Stopwatch.GetTimestamp();
        foreach (var bundle in bundles)
        {
            validate(bundle);
        }

        return Stopwatch.GetElapsedTime(start).TotalMilliseconds / bundles.Length;
    }
}
