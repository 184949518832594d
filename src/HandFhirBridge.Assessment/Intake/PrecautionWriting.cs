using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>The precautions in canonical JSON.</summary>
internal static class PrecautionWriting
{
    public static void Write(Utf8JsonWriter json, ImmutableArray<PrecautionAsked> precautions)
    {
        if (precautions.IsEmpty)
        {
            return;
        }

        json.WriteStartArray("precautions");
        foreach (var precaution in precautions)
        {
            json.WriteStartObject();
            json.WriteString("precaution", precaution.Precaution);
            json.WriteString("answer", WireName.Of(precaution.Answer));
            json.WriteWords("rulesOut", precaution.RulesOut);
            json.WriteWords("hands", [.. precaution.Hands.Select(WireName.Of)]);
            json.WriteText("note", precaution.Note);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
