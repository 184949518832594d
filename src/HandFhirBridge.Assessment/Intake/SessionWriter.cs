using System.Buffers;
using System.Globalization;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Writes a session as canonical JSON: the properties in the order of the schema, no white space, nothing that has its default, digits as entered. Equal sessions give equal bytes.</summary>
public static class SessionWriter
{
    // Names are written as they are read by people; the bytes go into files and requests, never into HTML.
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The canonical document. Reading it gives the same session.</summary>
    public static byte[] Write(Session session)
    {
        var buffer = new ArrayBufferWriter<byte>(8192);
        using (var json = new Utf8JsonWriter(buffer, Options))
        {
            json.WriteStartObject();
            WriteHead(json, session);
            SetupWriting.Write(json, session.Setup);
            PrecautionWriting.Write(json, session.Precautions);
            TrialWriting.Write(json, session.Trials);
            json.WriteText("comment", session.Comment);
            WriteConclusion(json, session.Conclusion);
            json.WriteEndObject();
        }

        return buffer.WrittenSpan.ToArray();
    }

    /// <summary>SHA-256 of the canonical document, lower-case hexadecimal: equal for the same session however its document was laid out.</summary>
    public static string ContentHash(Session session) => Convert.ToHexStringLower(SHA256.HashData(Write(session)));

    private static void WriteHead(Utf8JsonWriter json, Session session)
    {
        json.WriteString("schemaVersion", SessionSchema.Version);
        json.WriteString("sessionId", session.SessionId);
        json.WriteNumber("revision", session.Revision);
        json.WriteString("site", session.Site);
        json.WriteStartObject("instrument");
        json.WriteString("id", session.Instrument.Id);
        json.WriteString("version", session.Instrument.Version);
        json.WriteEndObject();
        WritePeople(json, session);
        json.WriteIdentifier("encounter", session.Encounter);
        json.WriteIdentifier("order", session.Order);
        json.WriteInstant("startedAt", session.StartedAt);
        json.WriteInstant("endedAt", session.EndedAt);
        WriteDominance(json, session.Dominance);
        json.WriteString("sexForNorm", WireName.Of(session.SexForNorm));
    }

    private static void WritePeople(Utf8JsonWriter json, Session session)
    {
        json.WriteStartObject("patient");
        json.WriteIdentifier("identifier", session.Patient.Identifier);
        json.WriteString("familyName", session.Patient.FamilyName);
        json.WriteString("birthDate", session.Patient.BirthDate.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        json.WriteEndObject();
        json.WriteStartObject("performer");
        json.WriteIdentifier("identifier", session.Performer.Identifier);
        json.WriteString("name", session.Performer.Name);
        json.WriteString("role", WireName.Of(session.Performer.Role));
        json.WriteEndObject();
    }

    private static void WriteConclusion(Utf8JsonWriter json, SignedConclusion? conclusion)
    {
        if (conclusion is null)
        {
            return;
        }

        json.WriteStartObject("conclusion");
        json.WriteString("text", conclusion.Text);
        json.WriteInstant("signedAt", conclusion.SignedAt);
        json.WriteEndObject();
    }

    private static void WriteDominance(Utf8JsonWriter json, Dominance dominance)
    {
        json.WriteStartObject("dominance");
        json.WriteString("handedness", WireName.Of(dominance.Handedness));
        json.WriteString("howKnown", WireName.Of(dominance.HowKnown));
        json.WriteDecimal("lateralityQuotient", dominance.LateralityQuotient);
        json.WriteString("testedAsDominant", WireName.Of(dominance.TestedAsDominant));
        json.WriteEndObject();
    }
}
