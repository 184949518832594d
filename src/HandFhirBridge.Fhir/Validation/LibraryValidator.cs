using Firely.Fhir.Validation;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation.Schemas;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;
using IssueComponent = Hl7.Fhir.Model.OperationOutcome.IssueComponent;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>The FHIR validator with this project's definitions and settings. Its first verdict is given behind a lock: see ADR 0403.</summary>
internal sealed class LibraryValidator(DefinitionSource definitions, ClosedValueSets valueSets)
{
    private readonly Lock _first = new();
    private readonly Validator _validator = new(
        definitions, new ClosedTerminology(valueSets), settings: Settings(), schemaResolver: new SharedSchemas(definitions, valueSets));

    private volatile bool _isWarm;

    /// <summary>What is wrong with a resource or a bundle.</summary>
    internal IReadOnlyList<IssueComponent> Validate(Resource resource) => Validate(resource.ToPocoNode(ModelInfo.ModelInspector));

    /// <summary>What is wrong with the resources of some entries, each validated where it stands in its bundle.</summary>
    internal IEnumerable<(int At, IReadOnlyList<IssueComponent> Issues)> ValidateEntries(Bundle bundle, IEnumerable<int> places)
    {
        PocoNode[] entries = [.. bundle.ToPocoNode(ModelInfo.ModelInspector).Child("entry")!];
        return places.Select(at => (at, (IReadOnlyList<IssueComponent>)Validate(entries[at].Child("resource")!.Single())));
    }

    private List<IssueComponent> Validate(PocoNode node)
    {
        if (_isWarm)
        {
            return _validator.Validate(node).Issue;
        }

        lock (_first)
        {
            var issues = _validator.Validate(node).Issue;
            _isWarm = true;
            return issues;
        }
    }

    private static ValidationSettings Settings() => new()
    {
        ConstraintBestPractices = ValidateBestPracticesSeverity.Warning,
        FollowExtensionUrl = (_, _) => ExtensionUrlHandling.ErrorIfMissing,
        HandleValidateCodeServiceFailure = (_, _) => TerminologyServiceExceptionResult.Error,
    };
}
