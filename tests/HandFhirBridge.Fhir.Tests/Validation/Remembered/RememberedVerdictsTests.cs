using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>What is remembered is the full validator's verdict. The benchmarks' command <c>differential</c> compares any number of bundles.</summary>
public sealed class RememberedVerdictsTests
{
    private const int Sample = 60;
    private const int Seed = 20260701;

    private static readonly Lazy<string[]> Good = new(() => [.. Repository.ExampleSessions().Take(5).Select(path => FhirText.Of(Mapped.Map(Mapped.Session(path))))]);

    [Fact]
    public void Validate_BundlesChangedAtRandom_IsTheFullVerdict()
    {
        var validator = Knowing();
        var bundles = new MutatedBundles(Seed, Good.Value);
        for (var number = 0; number < Sample; number++)
        {
            var (bundle, changes) = bundles.Make(number);
            Verdicts.Difference(validator, bundle, out _).ShouldBeNull($"bundle {number} of seed {Seed}: {changes}");
        }
    }

    private static SessionValidator Knowing()
    {
        foreach (var text in Good.Value)
        {
            SessionValidator.Shared.Validate(Read(text)).ShouldBeEmpty();
        }

        return SessionValidator.Shared;
    }

    private static Resource Read(string json) => FhirJsonDeserializer.OSTRICH.DeserializeResource(json);
}
