using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>What the conclusion says of the conditions: whatever makes the times hard to compare with a norm or with an earlier session.</summary>
internal static class ConditionSentences
{
    public static IEnumerable<string> Of(SessionContext context)
    {
        var departures = Departures(context).ToList();
        yield return departures.Count == 0
            ? "No departures from the standard were noted."
            : Wording.Sentence($"Departures from the standard: {string.Join("; ", departures)}");

        var repeated = context.Scored.Trials.Where(t => !t.Trial.Counted)
            .Select(t => $"{Wording.Task(context, t.Trial.Task)}, {WireName.Of(t.Trial.Hand)} hand ({Wording.Result(t.Trial)})").ToList();
        if (repeated.Count > 0)
        {
            yield return $"Attempts that do not count: {string.Join("; ", repeated)}.";
        }

        var precautions = context.Session.Precautions.Where(p => p.Answer != PrecautionAnswer.No).Select(p => SetupRows.Precaution(context, p)).ToList();
        if (context.Session.Precautions.IsEmpty)
        {
            yield return "No precautions were recorded as asked.";
        }
        else if (precautions.Count > 0)
        {
            yield return Wording.Sentence($"Precautions: {string.Join("; ", precautions)}");
        }
    }

    private static IEnumerable<string> Departures(SessionContext context)
    {
        var setup = context.Session.Setup;
        if (context.Scored.OrderDeparted)
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

        foreach (var (what, length) in OutsideTolerance(context))
        {
            yield return $"{Wording.Lower(what)} {Wording.Length(length)}";
        }

        foreach (var replaced in setup.ItemsReplaced)
        {
            yield return $"{Wording.Lower(context.Words.Material(replaced.Item))} replaced by {replaced.ReplacedBy}";
        }

        foreach (var scored in context.Scored.Counted.Where(t => !t.Trial.Departures.IsEmpty))
        {
            yield return $"{Wording.Task(context, scored.Trial.Task)}, {WireName.Of(scored.Trial.Hand)} hand ({Wording.Departures(context, scored.Trial)})";
        }
    }

    private static IEnumerable<(string What, Length Length)> OutsideTolerance(SessionContext context) =>
        from row in SetupRows.Lengths(context.Session.Setup)
        let standard = context.Instrument.Room.FirstOrDefault(m => m.Id == row.MeasureId)
        where standard is not null && Math.Abs(row.Length.Inches - standard.Inches) > standard.ToleranceInches
        select (row.What, row.Length);
}
