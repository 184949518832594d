using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>The trials in canonical JSON, in the order in which they ran.</summary>
internal static class TrialWriting
{
    public static void Write(Utf8JsonWriter json, ImmutableArray<Trial> trials)
    {
        json.WriteStartArray("trials");
        foreach (var trial in trials)
        {
            Write(json, trial);
        }

        json.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter json, Trial trial)
    {
        json.WriteStartObject();
        json.WriteString("task", trial.Task);
        json.WriteString("hand", WireName.Of(trial.Hand));
        json.WriteString("outcome", WireName.Of(trial.Outcome));
        json.WriteDecimal("seconds", trial.Seconds);
        json.WriteInstant("startedAt", trial.StartedAt);
        json.WriteText("source", trial.Source is { } source ? WireName.Of(source) : null);
        if (!trial.Counted)
        {
            json.WriteBoolean("counted", false);
        }

        json.WriteWords("departures", trial.Departures);
        json.WriteText("reason", trial.Reason);
        json.WriteText("note", trial.Note);
        json.WriteEndObject();
    }
}
