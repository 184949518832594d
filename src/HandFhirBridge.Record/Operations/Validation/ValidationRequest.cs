using System.Net;
using HandFhirBridge.Record.Http;
using HandFhirBridge.Record.Interactions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Operations.Validation;

/// <summary>What <c>$validate</c> was asked for (R4 OperationDefinition/Resource-validate).</summary>
/// <param name="Type">Resource type in the URL.</param>
/// <param name="Id">Logical id in the URL; null at the type.</param>
/// <param name="Body">Resource to validate, unread; null for none.</param>
/// <param name="Mode">Mode; null for "no action", the general validation.</param>
/// <param name="Profile">Profile to validate against; null for base R4 alone.</param>
internal sealed record ValidationRequest(string Type, string? Id, WrittenBody? Body, string? Mode, RecordProfile? Profile)
{
    // Value set resource-validation-mode.
    private static readonly string[] Modes = ["create", "update", "delete", "profile"];

    /// <exception cref="RecordRefusal">400: it cannot be validated, since a parameter is not known, is missing, or does not fit.</exception>
    public static ValidationRequest Of(string type, string? id, WrittenBody? body, IEnumerable<KeyValuePair<string, string>> query, IRecordProfiles? profiles)
    {
        var (resource, parameters) = (body, query.Where(q => q.Key is not ("_format" or "_pretty")).ToList());
        if (body?.Type == "Parameters")
        {
            (resource, var others) = body.Unwrap();
            parameters.AddRange(others is null ? [] : ((Parameters)others.Check().Demand().Resource).Parameter.Select(Pair));
        }

        if (parameters.Find(p => p.Key is not ("mode" or "profile")) is { Key: { } unknown })
        {
            throw RecordRefusal.BadRequest($"$validate does not know the parameter \"{unknown}\"; it takes resource, mode and profile.");
        }

        var (mode, profile) = (Single(parameters, "mode"), Single(parameters, "profile"));
        var nominated = profile is null ? null : Known(type, profile, profiles);
        DemandMode(mode, id, resource, profile);
        return new(type, id, resource, mode, nominated);
    }

    private static KeyValuePair<string, string> Pair(Parameters.ParameterComponent parameter) => new(
        parameter.Name!,
        (parameter.Value as PrimitiveType)?.JsonValue as string
            ?? throw RecordRefusal.BadRequest($"The parameter \"{parameter.Name}\" has no value. $validate takes resource, mode (a code) and profile (a uri)."));

    private static string? Single(List<KeyValuePair<string, string>> parameters, string name) => parameters.FindAll(p => p.Key == name) switch
    {
        [] => null,
        [var one] => one.Value,
        _ => throw RecordRefusal.BadRequest($"{name} is given more than once; $validate takes it once."),
    };

    // "If a profile is nominated, and the server cannot validate against the nominated profile, it SHALL return an error".
    private static RecordProfile? Known(string type, string profile, IRecordProfiles? profiles)
    {
        if (RecordProfile.Base(type).IsMeantBy(profile))
        {
            return null;
        }

        return profiles?.All.FirstOrDefault(known => known.Type == type && known.IsMeantBy(profile)) ?? throw new RecordRefusal(
            HttpStatusCode.BadRequest,
            OperationOutcome.IssueType.NotSupported,
            $"This server cannot validate a {type} against {profile}. Nothing was validated. Name one of its supportedProfile in the CapabilityStatement, or leave profile out to validate against base R4.");
    }

    private static void DemandMode(string? mode, string? id, WrittenBody? resource, string? profile)
    {
        if (mode is not null && !Modes.Contains(mode))
        {
            throw RecordRefusal.BadRequest($"mode is \"{mode}\"; it takes one of {string.Join(", ", Modes)}.");
        }

        // "Modes update and delete can only be used when the operation is invoked at the resource instance level."
        if (mode is "update" or "delete" or "profile" && id is null)
        {
            throw RecordRefusal.BadRequest($"mode {mode} is about a resource that stands: ask at Type/id/$validate.");
        }

        // "must be nominated by id, not provided as a parameter".
        if (mode == "profile" && (resource is not null || profile is null))
        {
            throw RecordRefusal.BadRequest("mode profile takes a profile, and the resource by its id alone.");
        }

        // "Must be present unless the mode is "delete""; at the instance level, the resource that stands can be meant.
        if (resource is null && (mode is "create" or "update" || (mode is null && id is null)))
        {
            throw RecordRefusal.BadRequest("$validate needs a resource: send it as the body, or in the parameter resource of a Parameters.");
        }
    }
}
