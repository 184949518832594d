using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Who and where, as the report says it; every other resource must say the same, lest results of two patients be mixed.</summary>
internal sealed class SharedFacts
{
    private readonly ResourceReference? subject;

    public SharedFacts(DiagnosticReport report, Place place)
    {
        subject = report.Subject;
        Patient = Elements.Logical(report.Subject, place.At("subject"));
        var performer = report.Performer.FirstOrDefault(p => p.Type != "Organization");
        Performer = Elements.Logical(performer, place.At("performer"));
        PerformerName = performer?.Display;
        if (PerformerName is null)
        {
            place.At("performer.display").Missing();
        }

        Encounter = report.Encounter is null ? null : Elements.Logical(report.Encounter, place.At("encounter"));
        Order = report.BasedOn.Count == 0 ? null : Elements.Logical(report.BasedOn[0], place.At("basedOn"));
        if (report.BasedOn.Count > 1)
        {
            place.At("basedOn").NotUnderstood($"{report.BasedOn.Count} orders", "one order at most");
        }
    }

    public BusinessIdentifier? Patient { get; }

    public BusinessIdentifier? Performer { get; }

    public string? PerformerName { get; }

    public BusinessIdentifier? Encounter { get; }

    public BusinessIdentifier? Order { get; }

    /// <summary>Notes where another resource of the session speaks of somebody or something else.</summary>
    public void Check(ResourceReference? otherSubject, ResourceReference? performer, ResourceReference? encounter, Place place)
    {
        Same(Patient, otherSubject, place.At("subject"), "the report is of");
        if (subject?.Reference is { } address && otherSubject?.Reference is { } other && ResourceSet.Local(address) != ResourceSet.Local(other))
        {
            place.At("subject.reference").Contradicts(other, $"the report is of {address}");
        }

        Same(Performer, performer, place.At("performer"), "the report names as performer");
        if (encounter is not null || Encounter is not null)
        {
            Same(Encounter, encounter, place.At("encounter"), "the report belongs to encounter");
        }
    }

    private static void Same(BusinessIdentifier? expected, ResourceReference? reference, Place place, string sentence)
    {
        var found = reference?.Identifier is { } identifier ? $"{identifier.System}|{identifier.Value}" : null;
        if (found != expected?.ToString())
        {
            place.Contradicts(found, $"{sentence} {expected?.ToString() ?? "none"}");
        }
    }
}
