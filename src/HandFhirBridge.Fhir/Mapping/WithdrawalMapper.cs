using System.Security.Cryptography;
using HandFhirBridge.Fhir.Mapping.Narratives;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>
/// Turns the resources of a session into those of its withdrawal, as R4 asks (diagnosticreport.html: status entered-in-error on the
/// report and its Observations, conclusion and narrative that say so, with the reason). Values stay as they were, since they
/// were read by people; nothing is scored anew, as norms may have changed since.
/// </summary>
public static class WithdrawalMapper
{
    /// <summary>A transaction of PUTs in the order of <paramref name="standing"/>, which is not changed.</summary>
    /// <param name="standing">Transaction of the revision that is withdrawn.</param>
    /// <param name="withdrawal">What is withdrawn, why, by whom and when.</param>
    /// <param name="statement">Its document; only its SHA-256 leaves.</param>
    public static Bundle Map(Bundle standing, Withdrawal withdrawal, ReadOnlyMemory<byte> statement)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(withdrawal);
        var bundle = (Bundle)standing.DeepCopy();
        foreach (var resource in bundle.Entry.Select(entry => entry.Resource))
        {
            Withdraw(resource, withdrawal, statement);
        }

        return BundleMapper.Map(bundle.Entry.Select(entry => entry.Resource!));
    }

    private static void Withdraw(Resource? resource, Withdrawal withdrawal, ReadOnlyMemory<byte> statement)
    {
        switch (resource)
        {
            case Observation observation:
                observation.Text = WithdrawalNarrative.OfResult(withdrawal, observation);
                observation.Status = ObservationStatus.EnteredInError;
                observation.IssuedElement = new Instant(withdrawal.At);
                Say(observation, withdrawal);
                break;
            case DiagnosticReport report:
                Withdraw(report, withdrawal);
                break;
            case QuestionnaireResponse response:
                // R4 defines event-statusReason for results and reports, not for responses: the narrative gives the reason.
                response.Text = WithdrawalNarrative.OfSetup(withdrawal, response);
                response.Status = QuestionnaireResponse.QuestionnaireResponseStatus.EnteredInError;
                response.SetExtension(Extensions.SessionRevision, new PositiveInt(withdrawal.Revision));
                break;
            case Provenance provenance:
                Withdraw(provenance, withdrawal, statement);
                break;
            default:
                // Devices are shared by sessions.
                break;
        }
    }

    private static void Withdraw(DiagnosticReport report, Withdrawal withdrawal)
    {
        report.Text = WithdrawalNarrative.OfReport(withdrawal, report);
        report.Status = DiagnosticReport.DiagnosticReportStatus.EnteredInError;
        report.IssuedElement = new Instant(withdrawal.At);
        report.SetExtension(Extensions.SessionRevision, new PositiveInt(withdrawal.Revision));
        Say(report, withdrawal);
        // What was signed is withdrawn with the rest; earlier versions keep it.
        report.RemoveExtension(Extensions.SignedConclusion);
        report.Conclusion = WithdrawalNarrative.Conclusion(withdrawal, report);
        // A page that looks valid must not stay attached; the narrative names it, and earlier versions keep it.
        report.PresentedForm.Clear();
    }

    private static void Withdraw(Provenance provenance, Withdrawal withdrawal, ReadOnlyMemory<byte> statement)
    {
        provenance.Id = ResourceIds.Of(IdentifierSystems.Provenance, withdrawal.Session.Provenance(withdrawal.Revision));
        provenance.Meta!.Tag.RemoveAll(tag => tag.System == IdentifierSystems.Provenance);
        provenance.Meta.Tag.Add(new(IdentifierSystems.Provenance, withdrawal.Session.Provenance(withdrawal.Revision)));
        provenance.RecordedElement = new Instant(withdrawal.At);
        // R4 valueset-provenance-activity-type: "treat as though it never existed".
        provenance.Activity = Concepts.Concept(new(CodeSystems.DataOperation, "NULLIFY", "nullify"));
        provenance.Reason = [new() { Text = withdrawal.Reason }];
        provenance.Agent.RemoveAll(agent => agent.Type?.Coding.Any(c => c.Code == "performer") == true);
        provenance.Agent.Add(new()
        {
            Type = Concepts.Concept(new(CodeSystems.ParticipantType, "performer", "Performer")),
            // Who decides is known by name alone: an identifier is not asked for where somebody acts from the command line.
            Who = new() { Display = withdrawal.By },
            OnBehalfOf = (ResourceReference?)provenance.Agent.Select(agent => agent.OnBehalfOf).FirstOrDefault(clinic => clinic is not null)?.DeepCopy(),
        });
        provenance.Entity.ForEach(entity => entity.What.Display = $"sha-256:{Convert.ToHexStringLower(SHA256.HashData(statement.Span))}");
        provenance.Text = WithdrawalNarrative.OfProvenance(withdrawal, provenance);
    }

    private static void Say(DomainResource resource, Withdrawal withdrawal) =>
        resource.SetExtension(Extensions.StatusReason, new CodeableConcept { Text = withdrawal.Reason });
}
