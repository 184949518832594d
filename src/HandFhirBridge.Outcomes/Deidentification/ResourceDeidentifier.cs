using System.Text.Json;
using HandFhirBridge.Outcomes.Gather.Reading;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Outcomes.Deidentification;

/// <summary>Makes resources that tell nobody's identity, by what may leave (never by what must not): 45 CFR 164.514(b)(2)(i).</summary>
/// <param name="options">How.</param>
/// <param name="report">Takes the counts.</param>
public sealed class ResourceDeidentifier(DeidentificationOptions options, RemovalReport report)
{
    private readonly Pseudonyms pseudonyms = new(options.Key);
    private readonly CoarseDates dates = new(options);

    /// <summary>The resource on one line of JSON; null if resources of its type are withheld.</summary>
    /// <param name="source">Where it was gathered: ids are good within one source.</param>
    /// <param name="resource">The resource.</param>
    public string? Resource(string source, JsonElement resource)
    {
        var type = OwnResources.Text(resource, "resourceType") ?? "";
        if (!AllowedElements.ByType.TryGetValue(type, out var allowed))
        {
            // The name stands in the report: only the name of a type may.
            report.CountWithheld(ModelInfo.IsKnownResource(type) ? type : "unknown");
            return null;
        }

        var patient = type == "Patient" ? OwnResources.Text(resource, "id") : Patient(resource);
        var walk = new ResourceWalk(pseudonyms, dates, report, source, type, patient is null ? null : pseudonyms.DaysBack(source, patient));
        var kept = walk.Object(resource, allowed);
        report.CountGiven();
        return kept!.ToJsonString();
    }

    private static string? Patient(JsonElement resource) =>
        resource.TryGetProperty("subject", out var subject) && OwnResources.Text(subject, "reference") is { } reference && Pseudonyms.Target(reference) is ("Patient", var id) ? id : null;
}
