using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Delivery.Ledger;

/// <summary>A checked and mapped session, ready to be committed.</summary>
/// <param name="Key">Which revision of which session.</param>
/// <param name="Document">Canonical session document, UTF-8 JSON. Its hash tells the same content from other content.</param>
/// <param name="Bundle">Mapped transaction, UTF-8 JSON; the patient is named by identifier only.</param>
/// <param name="Patient">What finds the chart at the moment of sending, and what must agree with it.</param>
/// <param name="Target">Name of the configured target it goes to.</param>
public sealed record AcceptedSession(
    SessionKey Key, ReadOnlyMemory<byte> Document, ReadOnlyMemory<byte> Bundle, PatientIdentity Patient, string Target = AcceptedSession.DefaultTarget)
{
    /// <summary>Name of the target where only one is configured.</summary>
    public const string DefaultTarget = "default";

    private static readonly FhirJsonSerializer Serializer = new();

    /// <summary>Takes a session, its canonical document and its mapped transaction together.</summary>
    /// <param name="session">The session as read.</param>
    /// <param name="document">Its canonical document.</param>
    /// <param name="bundle">Its mapped and validated transaction.</param>
    /// <param name="target">Name of the target.</param>
    public static AcceptedSession Of(Session session, ReadOnlyMemory<byte> document, Bundle bundle, string target = DefaultTarget)
    {
        ArgumentNullException.ThrowIfNull(session);
        ArgumentNullException.ThrowIfNull(bundle);
        var key = new SessionKey(session.Site, session.SessionId, session.Revision);
        return new(key, document, Serializer.SerializeToBytes(bundle), session.Patient, target);
    }
}
