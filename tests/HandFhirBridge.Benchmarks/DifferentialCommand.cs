using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Fhir.Tests.Validation.Remembered;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Benchmarks;

/// <summary>Compares verdicts from memory with those of the full validator over bundles changed at random.</summary>
internal static class DifferentialCommand
{
    internal const string Usage = "differential [--count N] [--seed N] [--from N]";

    private const int Shown = 1000;

    internal static int Run(string[] options)
    {
        if (options.Length % 2 != 0 || options.Where((_, at) => at % 2 == 0).Except(["--count", "--seed", "--from"], StringComparer.Ordinal).Any())
        {
            Console.Error.WriteLine("usage: " + Usage);
            return 2;
        }

        int Option(string name, int otherwise) =>
            Array.IndexOf(options, name) is >= 0 and var at ? int.Parse(options[at + 1], CultureInfo.InvariantCulture) : otherwise;
        return Compare(Option("--seed", 1), Option("--from", 0), Option("--count", 20_000));
    }

    private static int Compare(int seed, int from, int count)
    {
        var validator = SessionValidator.Shared;
        var serializer = new FhirJsonSerializer();
        var good = Corpus.Paths.Select(Corpus.Bundle).ToArray();
        foreach (var bundle in good)
        {
            validator.Validate(bundle);
        }

        var mutated = new MutatedBundles(seed, [.. good.Select(bundle => System.Text.Encoding.UTF8.GetString(serializer.SerializeToBytes(bundle)))]);
        var (clean, different, start) = (0, 0, Stopwatch.GetTimestamp());
        for (var number = from; number < count; number++)
        {
            var (bundle, changes) = mutated.Make(number);
            if (Verdicts.Difference(validator, bundle, out var isClean) is { } difference)
            {
                different++;
                Console.WriteLine($"DIFFERENT: bundle {number} of seed {seed} ({changes}){Environment.NewLine}{difference}");
            }

            clean += isClean ? 1 : 0;
            if ((number + 1) % Shown == 0 || number + 1 == count)
            {
                Console.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"seed {seed}, bundles {from} to {number}: {different} different, {clean} without any issue, {Stopwatch.GetElapsedTime(start).TotalMinutes:F1} min; go on with --from {number + 1}"));
            }
        }

        return different == 0 ? 0 : 1;
    }
}
