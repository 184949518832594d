using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Delivery.Tests.Servers;

/// <summary>Invented sessions taken through reading, scoring and mapping, as the service does.</summary>
internal static class MappedSessions
{
    private static readonly string[] Tasks =
    [
        "writing", "card-turning", "small-common-objects", "simulated-feeding", "stacking-checkers", "large-light-objects", "large-heavy-objects",
    ];

    public static AcceptedSession Session(
        string id = "S-1", int revision = 1, string patient = "P-0001", string system = "https://north-clinic.example/patients",
        string familyName = "Lindqvist", string birthDate = "1961-04-12", string comment = "Invented.",
        bool repeated = false, int fastest = 5)
    {
        var document = Document(id, revision, patient, system, familyName, birthDate, comment, repeated, fastest);
        var read = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(System.Text.Encoding.UTF8.GetBytes(document));
        read.Succeeded.ShouldBeTrue(string.Join('\n', read.Problems));
        var canonical = SessionWriter.Write(read.Value!);
        var scored = new Scorer(InstrumentLibrary.Embedded, NormLibrary.Embedded, new ScoringOptions(true)).Score(read.Value!);
        var bundle = new SessionMapper(new MappingOptions { SoftwareVersion = "0.1.0" }).Map(scored, canonical, new(2026, 3, 2, 10, 0, 0, TimeSpan.FromHours(1)));
        return AcceptedSession.Of(read.Value!, canonical, bundle);
    }

    /// <summary>The withdrawal of a session as the service makes it.</summary>
    public static Outcome<AcceptedSession> Withdraw(StandingRevision standing)
    {
        var key = standing.Entry.Key with { Revision = standing.Next };
        var withdrawal = new Withdrawal(
            new(key.Site, key.SessionId), key.Revision, standing.Entry.Key.Revision, standing.Entry.ContentHash, "Wrong patient.", "R. Okafor", new(2026, 3, 3, 8, 0, 0, TimeSpan.Zero));
        var statement = WithdrawalStatement.Write(withdrawal);
        var bundle = WithdrawalMapper.Map(
            new FhirJsonDeserializer().Deserialize<Bundle>(System.Text.Encoding.UTF8.GetString(standing.Payload.Bundle.Span)), withdrawal, statement);
        return new(new(key, statement, FhirJsonSerializer.Default.SerializeToBytes(bundle), standing.Payload.Patient, standing.Entry.Target), []);
    }

    private static string Document(string id, int revision, string patient, string system, string familyName, string birthDate, string comment, bool repeated, int fastest)
    {
        // A first attempt that does not count, as when somebody types it in by mistake.
        var attempt = repeated ? """{ "task": "writing", "hand": "left", "outcome": "void", "counted": false, "reason": "Bell rang." },""" : "";
        var trials = string.Join(",\n", Tasks.SelectMany((task, t) => new[] { "left", "right" }.Select((hand, h) => string.Create(
            CultureInfo.InvariantCulture,
            $$"""{ "task": "{{task}}", "hand": "{{hand}}", "outcome": "completed", "seconds": {{fastest + t}}.{{h}}0, "source": "timer" }"""))));
        return $$"""
            {
              "schemaVersion": "1", "sessionId": "{{id}}", "revision": {{revision}}, "site": "north-clinic",
              "instrument": { "id": "seven-task", "version": "1" },
              "patient": { "identifier": { "system": "{{system}}", "value": "{{patient}}" }, "familyName": "{{familyName}}", "birthDate": "{{birthDate}}" },
              "performer": { "identifier": { "system": "https://north-clinic.example/staff", "value": "T-1" }, "name": "R. Okafor", "role": "occupational-therapist" },
              "startedAt": "2026-03-02T09:05:00+01:00", "endedAt": "2026-03-02T09:40:00+01:00",
              "dominance": { "handedness": "right", "howKnown": "stated" }, "sexForNorm": "female",
              "setup": { "glasses": "not-needed", "templateBoard": false, "capSeconds": 120,
                         "tableHeight": { "value": 30, "unit": "in" }, "chairHeight": { "value": 18, "unit": "in" },
                         "edgeToItems": { "value": 5, "unit": "in" }, "betweenItems": { "value": 2, "unit": "in" } },
              "precautions": [ { "precaution": "lifting-restriction", "answer": "no" }, { "precaution": "recent-tendon-repair", "answer": "no" },
                               { "precaution": "unhealed-fracture", "answer": "no" }, { "precaution": "open-wound", "answer": "no" },
                               { "precaution": "recent-nerve-or-joint-surgery", "answer": "no" }, { "precaution": "pain-limits-use", "answer": "no" } ],
              "trials": [ {{attempt}} {{trials}} ],
              "comment": "{{comment}}"
            }
            """;
    }
}
