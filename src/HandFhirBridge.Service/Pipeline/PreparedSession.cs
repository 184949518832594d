using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Delivery.Ledger;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Service.Pipeline;

/// <summary>A session that passed every check and is ready for the ledger.</summary>
/// <param name="Scored">The session with its scores.</param>
/// <param name="Document">Canonical bytes of the session document; its hash tells the same content from other content.</param>
/// <param name="Bundle">Validated transaction; the patient is named by identifier only until the moment of sending.</param>
/// <param name="Target">Name of the target its site delivers to.</param>
public sealed record PreparedSession(ScoredSession Scored, ReadOnlyMemory<byte> Document, Bundle Bundle, string Target)
{
    /// <summary>Its report.</summary>
    public DiagnosticReport Report => Bundle.Entry.Select(entry => entry.Resource).OfType<DiagnosticReport>().Single();

    /// <summary>As the ledger takes it.</summary>
    public AcceptedSession ToAccept() => AcceptedSession.Of(Scored.Session, Document, Bundle, Target);
}
