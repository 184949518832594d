using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>One precaution as far as it could be read.</summary>
internal sealed record PrecautionSection(
    string? Precaution, PrecautionAnswer? Answer, ImmutableArray<string> RulesOut, ImmutableArray<Hand> Hands, string? Note)
{
    /// <summary>Precautions in the order of the document. One that is no object is left out; that is noted.</summary>
    public static List<PrecautionSection> Read(Field field, Instrument? instrument)
    {
        var read = new List<PrecautionSection>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var item in field.Items())
        {
            if (item.Object("precaution", "answer", "rulesOut", "hands", "note") is not { } fields)
            {
                continue;
            }

            var precaution = One(fields, instrument);
            if (precaution.Precaution is { } id && !seen.Add(id))
            {
                field.Problems.Add(IntakeProblems.DuplicateEntry, fields.Optional("precaution").Path, $"is \"{id}\", which is listed already.", id);
            }

            read.Add(precaution);
        }

        return read;
    }

    /// <summary>The precaution as it goes into the session; only called when no error was noted.</summary>
    public PrecautionAsked Complete() => new(Precaution!, Answer!.Value, RulesOut, Hands, Note);

    /// <summary>True if the therapist ruled out this task for this hand; no hands named means both.</summary>
    public bool Excludes(string task, Hand hand) => RulesOut.Contains(task) && (Hands.IsEmpty || Hands.Contains(hand));

    private static PrecautionSection One(ObjectFields fields, Instrument? instrument)
    {
        var id = fields.Required("precaution").Precaution(instrument);
        var answer = fields.Required("answer").Choice<PrecautionAnswer>();
        var rulesOut = fields.Optional("rulesOut");
        ImmutableArray<string> tasks = [.. rulesOut.Distinct(f => f.Task(instrument))];
        if (answer == PrecautionAnswer.No && tasks.Length > 0)
        {
            fields.Problems.Add(IntakeProblems.RulesOutWithoutCause, rulesOut.Path,
                $"lists {string.Join(", ", tasks)}, but the answer to {id ?? "the precaution"} is no.", rulesOut.Raw);
            tasks = [];
        }

        var hands = fields.Optional("hands").Distinct(f => f.Choice<Hand>() is { } hand ? WireName.Of(hand) : null);
        return new(id, answer, tasks, [.. hands.Select(h => WireName.Find<Hand>(h)!.Value)], fields.Optional("note").FreeText());
    }
}
