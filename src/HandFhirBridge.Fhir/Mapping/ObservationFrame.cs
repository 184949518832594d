using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>What every observation of a session starts from.</summary>
internal static class ObservationFrame
{
    /// <summary>An observation without a result yet.</summary>
    /// <param name="context">The session.</param>
    /// <param name="profile">Profile claimed.</param>
    /// <param name="system">Identifier system.</param>
    /// <param name="value">Identifier value.</param>
    /// <param name="code">The one coding of its code.</param>
    /// <param name="effective">When it was observed.</param>
    public static Observation Create(
        SessionContext context, string profile, string system, string value, Coding code, DateTimeOffset effective) => new()
        {
            Id = ResourceIds.Of(system, value),
            Meta = context.Meta(profile),
            Identifier = [new Identifier(system, value)],
            Status = context.ResultStatus,
            Category = Concepts.MeasuredFunction(),
            Code = Concepts.Concept(code),
            Subject = People.Patient(context),
            Encounter = People.Encounter(context),
            Effective = new FhirDateTime(effective),
            IssuedElement = new Instant(context.Issued),
            Performer = [People.Performer(context)],
        };

    /// <summary>The hand as a body site.</summary>
    public static CodeableConcept BodySite(SessionContext context, Hand hand)
    {
        if (context.Options.SnomedLicensed)
        {
            return Concepts.Concept(new(CodeSystems.Snomed, SnomedCodes.Of(hand)));
        }

        var site = Concepts.Concept(new(CodeSystems.Snomed, SnomedCodes.AnyHand));
        site.Extension.Add(new Extension(Extensions.Laterality, new Code(WireName.Of(hand))));
        return site;
    }

    /// <summary>A component that holds one value.</summary>
    public static Observation.ComponentComponent Component(string code, DataType value) =>
        new() { Code = Concepts.Concept(Concepts.Coded(CodeSystems.Component, code)), Value = value };

    /// <summary>Turns a result into one that could not be had.</summary>
    public static void Cancel(Observation observation, CodeableConcept reason)
    {
        observation.Status = ObservationStatus.Cancelled;
        observation.DataAbsentReason = reason;
    }
}
