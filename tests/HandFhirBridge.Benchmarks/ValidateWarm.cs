using System.Diagnostics;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Benchmarks;

/// <summary>
/// A warm verdict per bundle against the library's default validator, both shared and warm. Each round has sessions of its
/// own that were not validated before, so that what is remembered helps as it does in a clinic: after all examples were seen once.
/// </summary>
internal static class ValidateWarm
{
    private const int Seed = 20260701;

    internal static Ratio Measure(int runs, int sessions)
    {
        var ours = SessionValidator.Shared;
        var other = LibraryDefaults.Create();
        Bundle[] seen = [.. Corpus.Paths.Select(Corpus.Bundle)];
        PerBundle(seen, bundle => ours.Validate(bundle).Length);
        PerBundle(seen[..Math.Min(sessions, 5)], bundle => other.Validate(bundle).Issue.Count);
        var random = new Random(Seed);
        Bundle[] round = [];
        double Ours()
        {
            round = VariedSessions.Take(random, sessions);
            return PerBundle(round, bundle => ours.Validate(bundle).Length);
        }

        double Other() => PerBundle(round, bundle => other.Validate(bundle).Issue.Count);
        var (mine, theirs) = Alternating.Measure(runs, Ours, Other);
        return new("validate", mine, theirs, "ms a bundle", "the library's validator with its default settings, the SDK's full definitions and terminology service, shared and warm, on the same bundles");
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
