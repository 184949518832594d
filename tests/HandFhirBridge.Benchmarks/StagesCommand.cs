using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Fhir.Validation.Remembered;
using HandFhirBridge.Fhir.Validation.Rules;
using Hl7.Fhir.Model;
using Hl7.Fhir.Validation;

namespace HandFhirBridge.Benchmarks;

/// <summary>Where the time of a warm validation goes, stage by stage.</summary>
internal static class StagesCommand
{
    internal static int Run()
    {
        var bundles = Corpus.Paths.Take(2).Select(Corpus.Bundle).ToArray();
        var validator = SessionValidator.Shared;
        Time("whole verdict", bundles, bundle => validator.Validate(bundle).Length);
        Time("the same with nothing from memory", bundles, bundle => validator.ValidateFully(bundle).Length);
        Time("shapes", bundles, bundle => SessionShapes.Of(bundle).Entries.Length);
        Time("plain values, narrative not looked at", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector, NarrativeValidationKind.None).Count);
        Time("plain values, narrative against the schema", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector).Count);
        Time("plain values, narrative as XML", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector, NarrativeValidationKind.Xml).Count);
        IResourceRule[] rules = [new EntryRule(), new BundleReferenceRule(), new UnitRule()];
        foreach (var rule in rules)
        {
            Time(rule.GetType().Name, bundles, bundle => rule.Check(bundle, new Finding(bundle)).Count());
        }

        return 0;
    }

    private static void Time(string name, Bundle[] bundles, Func<Bundle, int> stage)
    {
        foreach (var bundle in bundles)
        {
            stage(bundle);
        }

        stage(bundles[0]);
        var allocated = GC.GetAllocatedBytesForCurrentThread();
        var cpu = Process.GetCurrentProcess().TotalProcessorTime;
        var start = Stopwatch.GetTimestamp();
        foreach (var bundle in bundles)
        {
            stage(bundle);
        }

        var took = Stopwatch.GetElapsedTime(start) / bundles.Length;
        var spent = (Process.GetCurrentProcess().TotalProcessorTime - cpu) / bundles.Length;
        var bytes = (GC.GetAllocatedBytesForCurrentThread() - allocated) / bundles.Length;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{name,-45} {took.TotalMilliseconds,9:F2} ms {spent.TotalMilliseconds,9:F2} ms processor {bytes / 1024,9} KiB a bundle"));
    }
}
