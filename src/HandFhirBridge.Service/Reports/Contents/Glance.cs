using System.Globalization;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>The answers a busy reader looks for: which hand, what is slow, is it better, was it standard, can the norm be trusted.</summary>
internal static class Glance
{
    public static IEnumerable<Point> Of(SessionReport report)
    {
        foreach (var hand in report.Rows.GroupBy(r => (r.Hand, r.Role)).OrderBy(g => g.Key.Hand))
        {
            yield return new(Phrases.Hand(hand.Key.Hand, hand.Key.Role), Hand([.. hand], report.SexForNorm));
        }

        yield return new("Compared with before", ChangeWording.Of(report));
        yield return new("Not standard", report.NotStandard.IsEmpty
            ? "No departure from the standard was noted."
            : PlainWords.Sentence(PlainWords.Upper(string.Join("; ", report.NotStandard))));
        yield return new("Trust in the norm", report.NormSources.IsEmpty
            ? "No norm was applied."
            : string.Join(" ", report.NormSources.Select(s => s.Evidence).Distinct().Select(e => PlainWords.Upper(Phrases.Evidence(e)) + ".")));
    }

    private static string Hand(List<ReportRow> rows, SexForNorm sex) => string.Join(" ", Sentences(rows, sex));

    private static IEnumerable<string> Sentences(List<ReportRow> rows, SexForNorm sex)
    {
        var judged = rows.Where(r => r.Judgement is not null).ToList();
        var slow = judged.Where(r => r.Judgement == Judgement.Slow).ToList();
        if (slow.Count > 0)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"SLOW, beyond 2 SD of the norm mean, in {slow.Count} of {judged.Count} tasks judged: {string.Join("; ", slow.Select(r => Slow(r, sex)))}.");
        }

        if (judged.Count > slow.Count)
        {
            yield return $"Within 2 SD of the norm mean: {PlainWords.List([.. judged.Except(slow).Select(r => PlainWords.Lower(r.Title))])}.";
        }

        if (judged.Count == 0)
        {
            yield return "NOTHING could be judged against a norm.";
        }

        if (rows.Where(r => r.Outcome != TrialOutcome.Completed).ToList() is { Count: > 0 } open)
        {
            yield return PlainWords.Sentence($"Not completed: {string.Join("; ", open.Select(Open))}");
        }

        if (rows.Where(r => r.Outcome == TrialOutcome.Completed && r.Judgement is null).ToList() is { Count: > 0 } unjudged)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"{PlainWords.Upper(Phrases.Judgement(unjudged[0])).Replace(": ", ", ", StringComparison.Ordinal)}: {PlainWords.List(unjudged.ConvertAll(r => PlainWords.Lower(r.Title)))}.");
        }
    }

    private static string Slow(ReportRow row, SexForNorm sex) =>
        $"{PlainWords.Lower(row.Title)} {Phrases.Result(row)} against a mean of {Phrases.Norm(row, sex)}, z {Phrases.Signed(row.Z!.Value)}";

    private static string Open(ReportRow row) => row.Outcome == TrialOutcome.StoppedAtCap
        ? $"{PlainWords.Lower(row.Title)} (stopped at the cap, {Phrases.Result(row)})"
        : $"{PlainWords.Lower(row.Title)} ({Output.Words.Of(row.Outcome)}{(row.Reason is null ? "" : $": {row.Reason}")})";
}
