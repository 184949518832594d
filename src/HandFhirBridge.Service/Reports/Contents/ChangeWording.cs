using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping.Narratives;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Whether it is better than last time, in words.</summary>
internal static class ChangeWording
{
    public static string Of(SessionReport report) => report.Earlier switch
    {
        EarlierSession.Compared => Compared(report),
        EarlierSession.None => "No earlier session in the record can be compared with this one.",
        EarlierSession.NotReadable => "Earlier sessions could not be looked up when this was made; whether there are any is not known here.",
        _ => "Earlier sessions were not looked up for this version of the report.",
    };

    private static string Compared(SessionReport report) =>
        report.Change is not [var first, ..] ? "The earlier session has no time to compare." : string.Join(" ", Sentences(report, first));

    private static IEnumerable<string> Sentences(SessionReport report, ReportChange first)
    {
        yield return $"Compared with the session of {PlainWords.Day(first.EarlierStartedAt)} (negative is faster).";
        var verdicts = report.Change.Where(c => c.Judgement is not null).ToList();
        foreach (var (verdict, words) in new[]
        {
            (ChangeVerdict.FasterBeyondMeasurementError, "FASTER beyond the measurement error"),
            (ChangeVerdict.SlowerBeyondMeasurementError, "SLOWER beyond the measurement error"),
            (ChangeVerdict.WithinMeasurementError, "Within the measurement error, so neither better nor worse can be said"),
        })
        {
            if (verdicts.Where(c => c.Judgement == verdict).ToList() is { Count: > 0 } of)
            {
                yield return $"{words}: {string.Join("; ", of.Select(c => $"{Subject(report, c)} {Phrases.Signed(c.Seconds!.Value)} s"))}.";
            }
        }

        foreach (var why in report.Change.Where(c => c.WhyNoVerdict is not null and not NoVerdict.NoPlainTime).GroupBy(c => c.WhyNoVerdict!.Value))
        {
            yield return $"{(verdicts.Count == 0 ? "Whether it is better or worse cannot be said" : "For the other times no verdict is possible")}: {Why(why.Key)}.";
        }
    }

    /// <summary>Task or total with its hand.</summary>
    public static string Subject(SessionReport report, ReportChange change)
    {
        var row = report.Rows.FirstOrDefault(r => r.Task == change.Subject);
        return $"{(row is null ? PlainWords.Lower(Phrases.Total(change.Subject)) : PlainWords.Lower(row.Title))}, {Words.Of(change.Hand)} hand";
    }

    public static string WhyShort(NoVerdict why) => why switch
    {
        NoVerdict.NoPlainTime => "no plain time",
        NoVerdict.SetupDiffered => "table laid differently",
        NoVerdict.NoMeasurementError => "no measurement error",
        NoVerdict.SeveralMeasurementErrors => "several measurement errors",
        _ => throw new ArgumentOutOfRangeException(nameof(why), why, null),
    };

    public static string Why(NoVerdict why) => why switch
    {
        NoVerdict.NoPlainTime => "no plain time in one of the two sessions",
        NoVerdict.SetupDiffered => "the table was laid differently (template board or replaced items)",
        NoVerdict.NoMeasurementError => "no published measurement error is set for these times",
        NoVerdict.SeveralMeasurementErrors => "several measurement errors fit equally well",
        _ => throw new ArgumentOutOfRangeException(nameof(why), why, null),
    };
}
