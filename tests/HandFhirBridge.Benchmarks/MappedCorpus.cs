using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Delivery.Ledger;

namespace HandFhirBridge.Benchmarks;

/// <summary>As many different sessions of the example patients as are asked for, ready for the ledger.</summary>
internal static class MappedCorpus
{
    private static int made;

    /// <summary>Sessions that no earlier call gave.</summary>
    internal static AcceptedSession[] Take(int count)
    {
        var reader = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System);
        return [.. Enumerable.Range(0, count).Select(_ => One(reader))];
    }

    private static AcceptedSession One(SessionReader reader)
    {
        var number = made++;
        var document = JsonNode.Parse(File.ReadAllBytes(Corpus.Paths[number % Corpus.Paths.Length]))!;
        document["sessionId"] = string.Create(CultureInfo.InvariantCulture, $"measured-{number}");
        var session = reader.Read(Encoding.UTF8.GetBytes(document.ToJsonString())).Value!;
        var canonical = SessionWriter.Write(session);
        return AcceptedSession.Of(session, canonical, Corpus.Map(Corpus.Score(canonical), canonical));
    }
}
