using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation;

/// <summary>What a reader calls a resource of a session: the trial with task and hand, not an entry's number.</summary>
internal static class ResourceName
{
    private const string Uncounted = "-uncounted";

    /// <summary>Name at the start of a sentence.</summary>
    internal static string Of(Resource resource) => resource switch
    {
        Observation observation => OfObservation(observation),
        QuestionnaireResponse => "Set-up response",
        DiagnosticReport => "Report",
        Provenance => "Provenance",
        Device device => "Device " + (device.DeviceName.FirstOrDefault()?.Name ?? device.Id),
        _ => resource.TypeName,
    };

    private static string OfObservation(Observation observation)
    {
        var code = observation.Code?.Coding.Find(coding => coding.System == CodeSystems.Measure)?.Code;
        return code is not null && HandOf(code) is { } hand ? Sided(code, hand) : Profile(observation) == Canonicals.Dominance ? "Dominance" : $"Observation {code ?? observation.Id}";
    }

    private static string Sided(string code, Hand hand)
    {
        var side = WireName.Of(hand);
        var what = code.Replace(Uncounted, string.Empty, StringComparison.Ordinal)[..^(side.Length + 1)];
        return what switch
        {
            "panel" => $"Panel of the {side} hand",
            _ when what.EndsWith("-total", StringComparison.Ordinal) => $"Total {what} of the {side} hand",
            _ when code.EndsWith(Uncounted, StringComparison.Ordinal) => $"Uncounted attempt at task {what} with the {side} hand",
            _ => $"Trial of task {what} with the {side} hand",
        };
    }

    private static Hand? HandOf(string code)
    {
        var sided = code.Replace(Uncounted, string.Empty, StringComparison.Ordinal);
        return Enum.GetValues<Hand>().Cast<Hand?>().FirstOrDefault(hand => sided.EndsWith('-' + WireName.Of(hand!.Value), StringComparison.Ordinal));
    }

    private static string? Profile(Resource resource) => resource.Meta?.Profile.FirstOrDefault();
}
