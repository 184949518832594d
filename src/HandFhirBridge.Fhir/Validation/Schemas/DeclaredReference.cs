using Firely.Fhir.Validation;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;
using Newtonsoft.Json.Linq;

namespace HandFhirBridge.Fhir.Validation.Schemas;

/// <summary>
/// Checks what a reference points at, at the reference. In a bundle the target must claim a profile that is asked for;
/// that it keeps it is checked where it stands, once. Outside the bundle the type that <c>Reference.type</c> or the
/// address states must be one that is asked for. The library passes over the second, validates targets again for each
/// reference, and reports faults at the target.
/// </summary>
#pragma warning disable ExperimentalApi // Rewriting compiled schemas is the library's own extension point: see ADR 0402.
internal sealed class DeclaredReference : IValidatable
{
    private readonly ReferencedInstanceValidator _source;
    private readonly IValidatable _whole;
    private readonly IValidatable _form;
    private readonly Dictionary<string, string[]> _profilesByType;

    internal DeclaredReference(ReferencedInstanceValidator source)
    {
        _source = source;
        _whole = source;
        _form = new ReferencedInstanceValidator(source.TargetCases!, source.AggregationRules, source.VersioningRules, ReferenceChecks.None);
        _profilesByType = source.TargetCases!.ToDictionary(target => target.Type, target => Profiles(target.Schema), StringComparer.Ordinal);
    }

    /// <inheritdoc/>
    public ResultReport Validate(PocoNode input, ValidationSettings vc, ValidationState state)
    {
        if (input.Poco is not ResourceReference reference || reference.Reference?.StartsWith('#') == true)
        {
            return _whole.Validate(input, vc, state);
        }

        var form = _form.Validate(input, vc, state);
        return Fault(input, reference) is { } fault ? ResultReport.Combine([form, Refused(fault).AsResult(state, input)]) : form;
    }

    /// <inheritdoc/>
    public JToken ToJson() => _source.ToJson();

    private string? Fault(PocoNode input, ResourceReference reference)
    {
        if (reference.Reference is { } address && input.Resolve(address)?.Poco is Resource target)
        {
            return FaultOf(target);
        }

        var wrong = new[] { reference.Type, TypeInAddress(reference.Reference) }.FirstOrDefault(type => type is not null && !_profilesByType.ContainsKey(type));
        return wrong is null ? null : $"The reference is to {wrong}, but may only be to {string.Join(" or ", _profilesByType.Keys)}.";
    }

    private string? FaultOf(Resource target)
    {
        if (!_profilesByType.TryGetValue(target.TypeName, out var profiles))
        {
            return $"The reference is to {target.TypeName}, but may only be to {string.Join(" or ", _profilesByType.Keys)}.";
        }

        return profiles.Length == 0 || target.Meta?.Profile.Any(claimed => profiles.Contains(claimed)) == true
            ? null
            : $"The reference is to {ResourceName.Of(target)}, which claims none of {string.Join(", ", profiles)}.";
    }

    private static string? TypeInAddress(string? address)
    {
        if (address is null || address.StartsWith("urn:", StringComparison.Ordinal))
        {
            return null;
        }

        var path = address.Split('?', 2)[0].Split("/_history/", 2)[0];
        var segments = path.Split('/');
        var type = address.Contains('?', StringComparison.Ordinal) ? segments[^1] : segments.Length > 1 ? segments[^2] : null;
        return type is not null && ModelInfo.IsKnownResource(type) ? type : null;
    }

    /// <summary>Profiles of this project that a target must claim one of; empty where a type of the core will do.</summary>
    private static string[] Profiles(IAssertion schema)
    {
        string[] profiles = schema switch
        {
            SchemaReferenceValidator single => [single.SchemaUri.ToString()],
            AnyValidator any => [.. any.Members.OfType<SchemaReferenceValidator>().Select(member => member.SchemaUri.ToString())],
            _ => [],
        };
        return Array.TrueForAll(profiles, profile => profile.StartsWith(Canonicals.Definitions, StringComparison.Ordinal)) ? profiles : [];
    }

    private static IssueAssertion Refused(string fault) =>
        new(OwnIssues.WrongTarget, fault, OperationOutcome.IssueSeverity.Error, OperationOutcome.IssueType.Structure);
}
