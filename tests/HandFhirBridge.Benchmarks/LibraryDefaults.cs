using Firely.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Specification.Source;
using Hl7.Fhir.Specification.Terminology;
using HandFhirBridge.Fhir.Profiles;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Benchmarks;

/// <summary>The FHIR validator as its documentation sets it up: the whole specification, the SDK's own terminology service, default settings.</summary>
internal static class LibraryDefaults
{
    internal static Validator Create()
    {
        var definitions = new CachedResolver(new MultiResolver(Package(), ZipSource.CreateValidationSource()));
        return new Validator(definitions, new LocalTerminologyService(definitions));
    }

    internal static OperationOutcome Validate(Validator validator, Bundle bundle) => validator.Validate(bundle);

    private static InMemoryResourceResolver Package() => new(
        [
            .. ProfilePackage.Files()
                .Where(file => file.Path.EndsWith(".json", StringComparison.Ordinal) && !file.Path.Contains('/', StringComparison.Ordinal) && file.Path is not ("package.json" or ".index.json"))
                .Select(file => FhirJsonDeserializer.RECOVERABLE.DeserializeResource(System.Text.Encoding.UTF8.GetString(file.Content.Span))),
        ]);
}
