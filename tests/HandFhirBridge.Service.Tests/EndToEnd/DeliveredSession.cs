using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Tests.EndToEnd;

/// <summary>A session that was handed in.</summary>
/// <param name="Key"><c>site/sessionId</c>.</param>
/// <param name="Document">The document as its file has it.</param>
public sealed record DeliveredSession(string Key, string Document)
{
    private static readonly Scorer Scorer = new(InstrumentLibrary.Embedded, NormLibrary.Embedded, new ScoringOptions(Demonstration: true));

    /// <summary>The document as plain JSON, its numbers as they were typed.</summary>
    public JsonNode Json { get; } = JsonNode.Parse(Document)!;

    public Session Session { get; } =
        new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System).Read(Encoding.UTF8.GetBytes(Document)).Value!;

    /// <summary>What went in, with the scores it must come back with.</summary>
    public ScoredSession Scored => Scorer.Score(Session);

    /// <summary>Trials that count and have a time, with the time as it was typed.</summary>
    public IEnumerable<(string Task, string Hand, string Seconds)> Times => Json["trials"]!.AsArray()
        .Where(t => t!["seconds"] is not null && ((bool?)t["counted"] ?? true))
        .Select(t => ((string)t!["task"]!, (string)t["hand"]!, t["seconds"]!.ToJsonString()));

    public override string ToString() => Key;
}
