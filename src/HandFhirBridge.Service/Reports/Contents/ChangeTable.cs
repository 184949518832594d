using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping.Narratives;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Change since the earlier session, time by time.</summary>
internal static class ChangeTable
{
    public static IEnumerable<ReportSection> Of(SessionReport report)
    {
        if (report.Change is not [var first, ..])
        {
            yield break;
        }

        var errors = report.Change.Select(c => c.Error).OfType<ReportError>().Select(Source).Distinct().ToList();
        yield return new(
            $"Change since {PlainWords.Day(first.EarlierStartedAt)}",
            [
                new Table(
                    $"Each time beside that of session {first.EarlierSessionId}; negative is faster",
                    [new("Task or total, hand", 3.4), new("Then", 1.2, true), new("Change", 1, true), new("Must exceed", 1.2, true), new("Verdict", 3.6)],
                    [.. report.Change.OrderBy(c => c.Hand).Select(c => Line(report, c))]),
                .. errors.Select(e => new Paragraph(e)),
            ]);
    }

    private static Row Line(SessionReport report, ReportChange change) => new(
        [
            PlainWords.Upper(ChangeWording.Subject(report, change)),
            change.EarlierSeconds is { } then ? PlainWords.Seconds(then) : "no plain time",
            change.Seconds is { } seconds ? Phrases.Signed(seconds) + " s" : "none",
            change.Error is { } error ? PlainWords.Seconds(error.MinimalDetectableChange) : "not known",
            change.Judgement switch
            {
                ChangeVerdict.FasterBeyondMeasurementError => "FASTER beyond measurement error",
                ChangeVerdict.SlowerBeyondMeasurementError => "SLOWER beyond measurement error",
                ChangeVerdict.WithinMeasurementError => "within measurement error",
                _ => "no verdict: " + ChangeWording.WhyShort(change.WhyNoVerdict ?? NoVerdict.NoPlainTime),
            },
        ],
        change.Judgement is ChangeVerdict.FasterBeyondMeasurementError or ChangeVerdict.SlowerBeyondMeasurementError);

    private static string Source(ReportError error) => string.Create(
        CultureInfo.InvariantCulture, $"Measurement error: minimal detectable change at {error.Level} % in {PlainWords.Sentence(error.Population)} {PlainWords.Sentence(error.Source)}");
}
