using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Fhir.Validation;
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
        Time("plain values, narrative not looked at", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector, NarrativeValidationKind.None).Count);
        Time("plain values, narrative against the schema", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector).Count);
        Time("plain values, narrative as XML", bundles, bundle => bundle.Validate(ModelInfo.ModelInspector, NarrativeValidationKind.Xml).Count);
        IResourceRule[] rules = [new EntryRule(), new BundleReferenceRule(), new UnitRule()];
        foreach (var rule in rules)
        {
            Time(rule.GetType().Name, bundles, bundle => rule.Check(bundle, new Finding(bundle)).Count());
        }

        Exp(bundles);
        return 0;
    }

#pragma warning disable ExperimentalApi
    private static void Exp(Bundle[] bundles)
    {
        Firely.Fhir.Validation.Validator Make(Action<Firely.Fhir.Validation.ValidationSettings> tweak, bool own)
        {
            var definitions = new HandFhirBridge.Fhir.Profiles.DefinitionSource();
            var vs = new HandFhirBridge.Fhir.Validation.Terminology.ClosedValueSets(definitions);
            var settings = new Firely.Fhir.Validation.ValidationSettings();
            tweak(settings);
            return new Firely.Fhir.Validation.Validator(definitions, new HandFhirBridge.Fhir.Validation.Terminology.ClosedTerminology(vs), settings: settings,
                schemaResolver: own ? new HandFhirBridge.Fhir.Validation.Schemas.SharedSchemas(definitions, vs) : null);
        }
        void T(string n, Firely.Fhir.Validation.Validator v) => Time(n, bundles, b => v.Validate(b).Issue.Count);
        T("own", Make(_ => {}, true));
        T("library schemas", Make(_ => {}, false));
        T("own, no invariants", Make(s => Firely.Fhir.Validation.ValidationSettingsExtensions.SetSkipConstraintValidation(s, true), true));
        T("own, no binding", Make(s => s.ExcludeFilters.Add(a => a is HandFhirBridge.Fhir.Validation.Schemas.ClosedBinding), true));
        T("own, no refs", Make(s => s.ExcludeFilters.Add(a => a is HandFhirBridge.Fhir.Validation.Schemas.DeclaredReference), true));
        T("own, no slices", Make(s => s.ExcludeFilters.Add(a => a is Firely.Fhir.Validation.SliceValidator), true));
        T("own, no bundle ref/inv", Make(s => s.ExcludeFilters.Add(a => a is Firely.Fhir.Validation.FhirPathValidator f && f.Key.StartsWith("bdl", StringComparison.Ordinal)), true));
        foreach (var k in new[]{"dom-","hfb-","obs-","qrs-","per-","ref-","att-","qty-","ext-","ele-","txt-"})
            T("own, no " + k, Make(s => s.ExcludeFilters.Add(a => a is Firely.Fhir.Validation.InvariantValidator f && f.Key.StartsWith(k, StringComparison.Ordinal)), true));
    }

    private static void Time(string name, Bundle[] bundles, Func<Bundle, int> stage)
    {
        foreach (var bundle in bundles)
        {
            stage(bundle);
        }

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
