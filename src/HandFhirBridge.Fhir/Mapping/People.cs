using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Logical references to what other systems own: by identifier, never by address. Delivery adds the patient's address once exactly one chart was found.</summary>
internal static class People
{
    public static ResourceReference Patient(SessionContext context) => Logical("Patient", context.Session.Patient.Identifier, null);

    public static ResourceReference Performer(SessionContext context) =>
        Logical("Practitioner", context.Session.Performer.Identifier, context.Session.Performer.Name);

    public static ResourceReference Clinic(SessionContext context)
    {
        var clinic = context.Options.Sites.Find(context.Session.Site);
        return Logical("Organization", clinic.Identifier, clinic.Name);
    }

    public static ResourceReference? Encounter(SessionContext context) =>
        context.Session.Encounter is { } identifier ? Logical("Encounter", identifier, null) : null;

    public static ResourceReference? Order(SessionContext context) =>
        context.Session.Order is { } identifier ? Logical("ServiceRequest", identifier, null) : null;

    private static ResourceReference Logical(string type, BusinessIdentifier identifier, string? display) =>
        new() { Type = type, Identifier = new Identifier(identifier.System, identifier.Value), Display = display };
}
