using HandFhirBridge.Assessment.Scoring;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Narrative of a counted trial or of an attempt that does not count.</summary>
internal static class AttemptNarrative
{
    public static Narrative Of(SessionContext context, ScoredTrial scored)
    {
        var trial = scored.Trial;
        var attempt = trial.Counted ? "" : " This attempt does not count; it was repeated at the same sitting.";
        return Xhtml.Narrative(
        [
            .. Banner.Of(context),
            Xhtml.Paragraph(PlainWords.Sentence($"{context.Words.Task(trial.Task)}, {Wording.Hand(trial.Hand, scored.Role)}: {Wording.Result(trial)}") + attempt),
            .. scored.Norms.Select(norm => Xhtml.Paragraph(NormWording.Sentence(norm))),
            .. Sentences(context, scored).Select(Xhtml.Paragraph),
        ]);
    }

    private static IEnumerable<string> Sentences(SessionContext context, ScoredTrial scored)
    {
        if (scored.Score is { } score)
        {
            yield return $"{PlainWords.Upper(NormWording.Judgement(score))}: z {Wording.ZScore(score.Z)} (positive is slower), {PlainWords.Percent(score.PercentOfMean)} of the norm mean.";
        }
        else if (scored.Trial.Counted)
        {
            yield return $"{PlainWords.Upper(NormWording.WhyNotJudged(scored.WhyNotJudged!.Value))}.";
        }

        if (!scored.Trial.Departures.IsEmpty)
        {
            yield return $"Departures from the standard: {Wording.Departures(context.Words, scored.Trial)}.";
        }

        if (scored.Trial.Note is { } note)
        {
            yield return $"Note: {note}";
        }
    }
}
