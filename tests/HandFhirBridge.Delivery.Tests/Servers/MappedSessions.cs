using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Fhir.Mapping;

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
        string familyName = "Lindqvist", string birthDate = "1961-04-12", string comment = "Invented.")
    {
        var document = Document(id, revision, patient, system, familyName, birthDate, comment);
        var read = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(System.Text.Encoding.UTF8.GetBytes(document));
        read.Succeeded.ShouldBeTrue(string.Join('\n', read.Problems));
        var canonical = SessionWriter.Write(read.Value!);
        var scored = new Scorer(InstrumentLibrary.Embedded, NormLibrary.Embedded, new ScoringOptions(true)).Score(read.Value!);
        var bundle = new SessionMapper(new MappingOptions { SoftwareVersion = "0.1.0" }).Map(scored, canonical, new(2026, 3, 2, 10, 0, 0, TimeSpan.FromHours(1)));
        return AcceptedSession.Of(read.Value!, canonical, bundle);
    }

    private static string Document(string id, int revision, string patient, string system, string familyName, string birthDate, string comment)
    {
        var trials = string.Join(",\n", Tasks.SelectMany((task, t) => new[] { "left", "right" }.Select((hand, h) => string.Create(
            CultureInfo.InvariantCulture,
            $$"""{ "task": "{{task}}", "hand": "{{hand}}", "outcome": "completed", "seconds": {{5 + t}}.{{h}}0, "source": "timer" }"""))));
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
              "trials": [ {{trials}} ],
              "comment": "{{comment}}"
            }
            """;
    }
}
