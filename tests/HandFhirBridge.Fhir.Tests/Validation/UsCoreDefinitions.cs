using Firely.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Hl7.Fhir.Specification.Snapshot;
using Hl7.Fhir.Specification.Source;
using Hl7.Fhir.Specification.Terminology;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Fhir.Tests.Validation;

/// <summary>
/// A validator for the profiles of one US Core release, from its published differentials. What is not in hand is dealt
/// with as follows, and nothing is passed over silently:
/// profiles that references may point at and that are no part of the material are replaced by the type they constrain
/// (no reference is followed here, only its type is compared); the SDC profile that us-core-questionnaireresponse derives
/// from is replaced by QuestionnaireResponse, and its slice for SDC's extension questionnaire-uri is left out; value sets
/// with LOINC or SNOMED CT content are bound as extensible or weaker and are not checked; a value set that a required
/// binding needs and that cannot be expanded is an error.
/// </summary>
internal static class UsCoreDefinitions
{
    private const string Base = "http://hl7.org/fhir/us/core/StructureDefinition/";
    private const string Types = "http://hl7.org/fhir/StructureDefinition/";

    private static readonly Dictionary<string, string> MissingTargets = new(StringComparer.Ordinal)
    {
        [Base + "us-core-careteam"] = "CareTeam",
        [Base + "us-core-device"] = "Device",
        [Base + "us-core-observation-lab"] = "Observation",
        [Base + "us-core-relatedperson"] = "RelatedPerson",
    };

    /// <summary>The validator, with snapshots made for the profiles named.</summary>
    /// <param name="release">6.1.0 or 9.0.0.</param>
    /// <param name="profiles">Ids of the profiles.</param>
    internal static async Task<Validator> ValidatorAsync(string release, IEnumerable<string> profiles)
    {
        var folder = Published.Folder(Path.Combine("testdata", "us-core", release));
        var published = Directory.EnumerateFiles(folder, "*.json").Order(StringComparer.Ordinal)
            .Select(path => FhirJsonDeserializer.RECOVERABLE.DeserializeResource(File.ReadAllText(path))).ToList();
        published.OfType<StructureDefinition>().ToList().ForEach(Adapt);
        var definitions = new CachedResolver(new MultiResolver(new InMemoryResourceResolver(published), Mapping.Core.Source));
        foreach (var profile in profiles)
        {
            await AddSnapshotAsync(published.OfType<StructureDefinition>().Single(definition => definition.Url == Base + profile), definitions);
        }

        var settings = new ValidationSettings
        {
            HandleValidateCodeServiceFailure = (_, _) => TerminologyServiceExceptionResult.Error,
            // Our own profiles are not the question here, nor the extensions they define.
            SelectValidationProfiles = (_, _, _, _) => [],
            FollowExtensionUrl = (_, _) => ExtensionUrlHandling.DontResolve,
        };
        return new Validator(definitions, new LocalTerminologyService(definitions), settings: settings);
    }

    internal static string Url(string profile) => Base + profile;

    private static void Adapt(StructureDefinition definition)
    {
        if (definition.BaseDefinition == "http://hl7.org/fhir/uv/sdc/StructureDefinition/sdc-questionnaireresponse")
        {
            definition.BaseDefinition = Types + "QuestionnaireResponse";
            definition.Differential!.Element.RemoveAll(element => element.ElementId!.Contains("extension:url", StringComparison.Ordinal));
        }

        foreach (var type in definition.Differential!.Element.SelectMany(element => element.Type))
        {
            type.TargetProfile = [.. type.TargetProfile.Select(target => target is not null && MissingTargets.TryGetValue(target, out var name) ? Types + name : target)];
        }
    }

    private static async Task AddSnapshotAsync(StructureDefinition definition, IAsyncResourceResolver definitions)
    {
        await new SnapshotGenerator(definitions).UpdateAsync(definition);
        foreach (var constraint in definition.Snapshot!.Element.SelectMany(element => element.Constraint).Where(constraint => constraint.Key == "ref-1"))
        {
            // R4's own text is empty, which counts as broken, for a reference by identifier; this is R5's
            // (http://hl7.org/fhir/R5/references.html#invs), which the validator itself uses on the type Reference.
            constraint.Expression = "reference.exists() implies (reference.startsWith('#').not() or (reference.substring(1).trace('url') in %rootResource.contained.id.trace('ids')) or (reference='#' and %rootResource!=%resource))";
        }
    }
}
