using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>What the conclusion says of the conditions: whatever makes the times hard to compare with a norm or with an earlier session.</summary>
internal static class ConditionSentences
{
    public static IEnumerable<string> Of(SessionContext context)
    {
        var departures = Departures(context.Scored, context.Instrument, context.Words).ToList();
        yield return departures.Count == 0
            ? "No departures from the standard were noted."
            : PlainWords.Sentence($"Departures from the standard: {string.Join("; ", departures)}");

        var repeated = context.Scored.Trials.Where(t => !t.Trial.Counted)
            .Select(t => $"{Wording.Task(context.Words, t.Trial.Task)}, {WireName.Of(t.Trial.Hand)} hand ({Wording.Result(t.Trial)})").ToList();
        if (repeated.Count > 0)
        {
            yield return $"Attempts that do not count: {string.Join("; ", repeated)}.";
        }

        var precautions = context.Session.Precautions.Where(p => p.Answer != PrecautionAnswer.No).Select(p => SetupRows.Precaution(context.Words, p)).ToList();
        if (context.Session.Precautions.IsEmpty)
        {
            yield return "No precautions were recorded as asked.";
        }
        else if (precautions.Count > 0)
        {
            yield return PlainWords.Sentence($"Precautions: {string.Join("; ", precautions)}");
        }
    }

    /// <summary>Each departure from the standard within a sentence; none if all was as the instrument asks.</summary>
    public static IEnumerable<string> Departures(ScoredSession session, Instrument instrument, InstrumentWords words)
    {
        var setup = session.Session.Setup;
        if (session.OrderDeparted)
        {
            yield return "trials not in the standard order";
        }

        if (setup.TemplateBoard)
        {
            yield return "a template board lay on the table";
        }

        if (setup.Glasses == Glasses.NeededNotWorn)
        {
            yield return "glasses needed but not worn";
        }

        foreach (var (what, length) in OutsideTolerance(setup, instrument))
        {
            yield return $"{PlainWords.Lower(what)} {Wording.Length(length)}";
        }

        foreach (var replaced in setup.ItemsReplaced)
        {
            yield return $"{PlainWords.Lower(words.Material(replaced.Item))} replaced by {replaced.ReplacedBy}";
        }

        foreach (var scored in session.Counted.Where(t => !t.Trial.Departures.IsEmpty))
        {
            yield return $"{Wording.Task(words, scored.Trial.Task)}, {WireName.Of(scored.Trial.Hand)} hand ({Wording.Departures(words, scored.Trial)})";
        }
    }

    private static IEnumerable<(string What, Length Length)> OutsideTolerance(Setup setup, Instrument instrument) =>
        from row in SetupRows.Lengths(setup)
        let standard = instrument.Room.FirstOrDefault(m => m.Id == row.MeasureId)
        where standard is not null && Math.Abs(row.Length.Inches - standard.Inches) > standard.ToleranceInches
        select (row.What, row.Length);
}
