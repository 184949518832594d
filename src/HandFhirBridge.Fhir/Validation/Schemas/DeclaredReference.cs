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
    private readonly bool _hasNoMoreRules;
    private readonly Dictionary<string, string[]> _profilesByType;

    internal DeclaredReference(ReferencedInstanceValidator source)
    {
        _source = source;
        _whole = source;
        _hasNoMoreRules = source.AggregationRules is null && source.VersioningRules is null;
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

        var target = reference.Reference is { } address ? EntryOf(input, address) : null;
        var form = target is not null && _hasNoMoreRules ? ResultReport.SUCCESS : _form.Validate(input, vc, state);
        var fault = target is null ? FaultOf(reference) : FaultOf(target);
        return fault is null ? form : ResultReport.Combine([form, Refused(fault).AsResult(state, input)]);
    }

    /// <inheritdoc/>
    public JToken ToJson() => _source.ToJson();

    // By address alone: the library's own resolving takes every entry's address apart for every reference.
    private static Resource? EntryOf(PocoNode input, string address)
    {
        PocoNode? at = input;
        while (at is not null && at.Poco is not Bundle)
        {
            at = at.Parent;
        }

        return (at?.Poco as Bundle)?.Entry.Find(entry => entry.FullUrl == address)?.Resource;
    }

    private string? FaultOf(ResourceReference reference)
    {
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
