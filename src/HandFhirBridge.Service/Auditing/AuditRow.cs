using System.Globalization;
using System.Text;
using HandFhirBridge.Service.Hosting;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Auditing;

/// <summary>
/// An act as a FHIR R4 AuditEvent (auditevent.html), coded as R4's own example of a REST access (auditevent-example-rest.html); what leaves the
/// house as an export, with its destination (DICOM PS3.16 Annex D, in R4's value sets audit-event-type and participation-role-type).
/// </summary>
internal static class AuditRow
{
    private const string Dicom = "http://dicom.nema.org/resources/ontology/DCM";

    public static AuditEvent Of(AuditedAct act, DateTimeOffset at) => new()
    {
        Type = act.Recipient is null
            ? new("http://terminology.hl7.org/CodeSystem/audit-event-type", "rest", "RESTful Operation")
            : new(Dicom, "110106", "Export"),
        Subtype = [new("http://hl7.org/fhir/restful-interaction", act.Interaction)],
        Action = act.Interaction switch
        {
            "create" => AuditEvent.AuditEventAction.C,
            "update" => AuditEvent.AuditEventAction.U,
            "delete" => AuditEvent.AuditEventAction.D,
            "operation" or "search-type" or "transaction" => AuditEvent.AuditEventAction.E,
            _ => AuditEvent.AuditEventAction.R,
        },
        Recorded = at,
        // R4 audit-event-outcome: 0 success, 4 minor failure (the caller's), 8 serious failure (ours).
        Outcome = act.Status switch
        {
            < 400 => AuditEvent.AuditEventOutcome.N0,
            < 500 => AuditEvent.AuditEventOutcome.N4,
            _ => AuditEvent.AuditEventOutcome.N8,
        },
        Agent =
        [
            new()
            {
                Who = act.Who is null ? null : new() { Identifier = new() { Value = act.Who } },
                Requestor = true,
                Network = act.Address is null ? null : new() { Address = act.Address, Type = AuditEvent.AuditEventAgentNetworkType.N2 },
            },
            .. act.Recipient is { } recipient ? new AuditEvent.AgentComponent[] { new() { Type = new(Dicom, "110152", "Destination Role ID"), Name = recipient, Requestor = false } } : [],
        ],
        PurposeOfEvent = act.Reason is { } reason ? [new() { Text = reason }] : [],
        Source = new() { Observer = new() { Display = $"HandFhirBridge {BridgeParts.Version}" } },
        Entity =
        [
            new()
            {
                Name = act.Path,
                Detail = [.. act.Rows.Select(r => new AuditEvent.DetailComponent { Type = r.Key, Value = new FhirString(r.Value.ToString(CultureInfo.InvariantCulture)) })],
            },
            // sev-1: an entity has a name or a query.
            .. act.Query is { } query ? new AuditEvent.EntityComponent[] { new() { Query = Encoding.UTF8.GetBytes(query) } } : [],
            .. act.Concerning.Select(c => new AuditEvent.EntityComponent { What = new() { Identifier = new(c.System, c.Value) } }),
            .. act.References.Select(r => new AuditEvent.EntityComponent { What = new(r) }),
        ],
    };
}
