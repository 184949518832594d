using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Identity;

/// <summary>
/// Asks a target which charts could be meant (R4 patient-operation-match.html), so that the person who decides has something
/// to begin with. It only ever proposes: however certain the target says it is, nothing follows from it.
/// </summary>
public static class PatientProposals
{
    private const int MostShown = 5;
    private const string Grade = "http://hl7.org/fhir/StructureDefinition/match-grade";

    /// <summary>One sentence with ids, grades and scores, and nothing else from any chart; says so if the target proposes nothing.</summary>
    public static async Task<string> AskAsync(FhirTarget target, PatientIdentity patient, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(patient);
        var answer = await target.MatchPatientAsync(Parameters(patient).ToBytes(), cancellation);
        if (!answer.Succeeded || answer.ResourceType != "Bundle")
        {
            return $"The target was asked for charts that could be meant and gave no proposal ({answer}).";
        }

        var proposals = answer.Resource.Objects("entry").Where(entry => entry.Object("resource").Text("resourceType") == "Patient")
            .Take(MostShown).Select(Describe).ToList();
        return proposals.Count == 0
            ? "The target was asked for charts that could be meant and knows none."
            : $"The target proposes {string.Join("; ", proposals)}. A person decides.";
    }

    /// <summary>The patient as a session names them.</summary>
    internal static JsonObject Patient(PatientIdentity patient) => new()
    {
        ["resourceType"] = "Patient",
        ["identifier"] = new JsonArray(new JsonObject { ["system"] = patient.Identifier.System, ["value"] = patient.Identifier.Value }),
        ["name"] = new JsonArray(new JsonObject { ["family"] = patient.FamilyName }),
        ["birthDate"] = patient.BirthDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
    };

    private static JsonObject Parameters(PatientIdentity patient) => new()
    {
        ["resourceType"] = "Parameters",
        ["parameter"] = new JsonArray(
            new JsonObject { ["name"] = "resource", ["resource"] = Patient(patient) },
            new JsonObject { ["name"] = "onlyCertainMatches", ["valueBoolean"] = false },
            new JsonObject { ["name"] = "count", ["valueInteger"] = MostShown }),
    };

    private static string Describe(JsonElement entry)
    {
        var search = entry.Object("search");
        var grade = search.Objects("extension").FirstOrDefault(e => e.Text("url") == Grade).Text("valueCode");
        var score = search.IsObject() && search.TryGetProperty("score", out var number) && number.ValueKind == JsonValueKind.Number ? number.GetRawText() : null;
        var said = string.Join(", ", new[] { grade, score is null ? null : $"score {score}" }.OfType<string>());
        return $"Patient/{entry.Object("resource").Text("id")}{(said.Length == 0 ? "" : $" ({said})")}";
    }
}
