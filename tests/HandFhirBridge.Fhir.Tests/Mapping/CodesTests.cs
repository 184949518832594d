using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;
using Hl7.Fhir.Specification.Source;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>Every coding we write against the code systems of R4 and of our package.</summary>
public sealed class CodesTests
{
    // Tags that say which session and which revision a resource is of: names of documents, not concepts of a code system.
    private static readonly string[] Names = [IdentifierSystems.Session, IdentifierSystems.Provenance];

    // Not part of the R4 specification: SNOMED CT, ICF and US Core; UCUM is checked in UcumTests.
    private static readonly string[] Elsewhere = [CodeSystems.Snomed, CodeSystems.Icf, CodeSystems.UsCoreCategory, CodeSystems.Ucum];

    public static TheoryData<string, string, string?> Written
    {
        get
        {
            var data = new TheoryData<string, string, string?>();
            var codings = Repository.ExampleSessions().Select(Mapped.Session)
                .SelectMany(s => new[] { Mapped.Map(s), Mapped.Map(s with { Revision = 2 }, options: Mapped.Options with { SnomedLicensed = false }) })
                .SelectMany(Parts.Of<Coding>).Select(c => (c.System!, c.Code!, c.Display)).Distinct();
            foreach (var (system, code, display) in codings.Where(c => !Elsewhere.Contains(c.Item1) && !Names.Contains(c.Item1)))
            {
                data.Add(system, code, display);
            }

            return data;
        }
    }

    // hl7.fhir.r4.core 4.0.1 (specification.zip) for HL7's systems, profiles/package for ours: code defined, display exactly as defined.
    [Theory]
    [MemberData(nameof(Written))]
    public async System.Threading.Tasks.Task Map_EachCoding_IsDefinedWithItsDisplay(string system, string code, string? display)
    {
        var concept = Concepts((await Defined(system)).Concept).SingleOrDefault(c => c.Code == code);
        concept.ShouldNotBeNull();
        display.ShouldBe(concept.Display);
    }

    // A wrong display could be refused, and none is needed: docs/mapping.md.
    [Fact]
    public void Map_Snomed_HasNoDisplay() =>
        Parts.Of<Coding>(Mapped.Map(Samples.Clean)).Where(c => c.System == CodeSystems.Snomed).ShouldAllBe(c => c.Display == null);

    private static async System.Threading.Tasks.Task<CodeSystem> Defined(string url)
    {
        if (url.StartsWith(Canonicals.Base, StringComparison.Ordinal))
        {
            return FhirText.Parse<CodeSystem>(await File.ReadAllTextAsync(Repository.Package($"CodeSystem-{url.Split('/')[^1]}.json")));
        }

        return (CodeSystem)(await Core.Source.ResolveByCanonicalUriAsync(url)).ShouldNotBeNull();
    }

    private static IEnumerable<CodeSystem.ConceptDefinitionComponent> Concepts(IEnumerable<CodeSystem.ConceptDefinitionComponent> concepts) =>
        concepts.SelectMany(c => Concepts(c.Concept).Prepend(c));
}
