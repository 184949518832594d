using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Targets;

namespace HandFhirBridge.Delivery.Writing;

/// <summary>
/// The mapped session with the chart's address put in beside each identifier of the patient. Worked on as bytes and JSON and not
/// as objects: what was validated goes out with every digit and element as it was.
/// </summary>
/// <param name="Entries">Each but the last, the Provenance, after what it refers to.</param>
/// <param name="Patient">Patient by identifier.</param>
/// <param name="Chart">The chart.</param>
public sealed record SessionBundle(ImmutableArray<SessionEntry> Entries, PatientIdentity Patient, PatientMatch Chart)
{
    /// <summary>The report; where it is written as a document, that.</summary>
    public SessionEntry Report => Entries.First(entry => entry.Type is "DiagnosticReport" or "DocumentReference");

    /// <summary>Revision of the session, from 1.</summary>
    public int Revision { get; init; } = 1;

    /// <summary>True if this revision withdraws the session.</summary>
    public bool IsWithdrawn { get; init; }

    /// <summary>True if it is written as a document in place of the report resource.</summary>
    public bool IsDocument => Report.Type == "DocumentReference";

    /// <summary>Types written.</summary>
    public IEnumerable<string> Types => Entries.Select(entry => entry.Type).Distinct();

    /// <summary>Reads what the ledger holds.</summary>
    /// <param name="bundle">Mapped transaction, UTF-8 JSON.</param>
    /// <param name="patient">Patient of the session.</param>
    /// <param name="match">The chart.</param>
    public static SessionBundle Of(ReadOnlyMemory<byte> bundle, PatientIdentity patient, PatientMatch match)
    {
        ArgumentNullException.ThrowIfNull(patient);
        ArgumentNullException.ThrowIfNull(match);
        var addressed = JsonElement.Parse(ChartReferences.Put(bundle.Span, patient.Identifier, match.Reference).Span);
        var session = new SessionBundle(
            [.. addressed.GetProperty("entry").EnumerateArray().Select(Read)], patient, match);
        var report = session.Report.Resource;
        return session with { Revision = RecordSearch.Revision(report) ?? 1, IsWithdrawn = report.Text("status") == "entered-in-error" };
    }

    private static SessionEntry Read(JsonElement entry, int index)
    {
        var resource = entry.GetProperty("resource");
        return new(
            index,
            resource.GetProperty("resourceType").GetString()!,
            resource.GetProperty("id").GetString()!,
            entry.GetProperty("fullUrl").GetString()!,
            resource);
    }
}
