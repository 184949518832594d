using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping.Narratives;

namespace HandFhirBridge.Service.Reports.Contents;

/// <summary>Puts a report into words and tables.</summary>
internal static class ReportWriting
{
    public const string Demonstration = "DEMONSTRATION: compared with a norm from memory; not for patients.";

    public static ReportContents Of(SessionReport report) => new(
        $"{report.Instrument}: report",
        $"{report.FamilyName}, {report.Patient.Value}; session {report.Site}/{report.SessionId} of {PlainWords.Day(report.StartedAt)}, revision {report.Revision}",
        report.Issued,
        [.. Notices(report)],
        [
            new(null, [Facts.Of(report)]),
            new("At a glance", [new Points([.. Glance.Of(report)])]),
            .. report.Conclusion is { SignedBy: not null } ? [Conclusion(report.Conclusion)] : Array.Empty<ReportSection>(),
            new("Times beside the norm", [new Picture(report), .. ResultTables.Of(report)]),
            .. ChangeTable.Of(report),
            new("Conditions of testing", [.. Conditions(report)]),
            new("Norms", [Norms(report)]),
            .. report.Conclusion is { SignedBy: null } ? [Conclusion(report.Conclusion)] : Array.Empty<ReportSection>(),
            new("What not to conclude", [new Paragraph(report.Caution), new Paragraph(Limits)]),
        ]);

    /// <summary>The contents of a withdrawn report: no value of it.</summary>
    public static ReportContents Of(WithdrawalNotice notice) => new(
        "Report withdrawn",
        $"Session {notice.Site}/{notice.SessionId}, withdrawn",
        notice.Issued,
        ["WITHDRAWN: this report was entered in error and must not be used."],
        [
            new(null,
            [
                new Points(
                [
                    new("Session", $"{notice.Site}/{notice.SessionId}{(notice.StartedAt is { } start ? $", given on {PlainWords.Moment(start)}" : "")}"),
                    .. notice.Patient is { } patient ? [new Point("Patient", $"identifier {patient}")] : Array.Empty<Point>(),
                    new("Withdrawn", PlainWords.Moment(notice.Issued)),
                ]),
                new Paragraph(notice.Statement),
            ]),
        ]);

    private const string Limits =
        "A time beyond 2 SD says that the hand was slower at this task than nearly all of the norm's sample, not why. A time within 2 SD does "
        + "not say that the hand is sound. A change within the measurement error may be no change at all.";

    private static IEnumerable<string> Notices(SessionReport report)
    {
        if (report.Demonstration)
        {
            yield return Demonstration;
        }

        if (report.Status == ReportStatus.Corrected)
        {
            yield return $"CORRECTED: this is revision {report.Revision}, issued {PlainWords.Moment(report.Issued)}; earlier versions of this report are no longer valid.";
        }

        if (report.SexForNorm == SexForNorm.Unknown)
        {
            yield return "NOT JUDGED: the sex for the norm is unknown, so both norms are shown and none is applied.";
        }
    }

    private static ReportSection Conclusion(ReportConclusion conclusion) => new(
        conclusion.SignedBy is { } by ? $"Conclusion, signed by {by}" : "Conclusion, drafted by rules and not signed",
        [new Paragraph(conclusion.Text)]);

    private static IEnumerable<ReportBlock> Conditions(SessionReport report)
    {
        yield return new Table(
            "Set-up and precautions",
            [new("What", 1), new("How it was", 2)],
            [.. report.Conditions.Select(c => new Row([c.What, PlainWords.Upper(c.How)]))]);
        yield return new Points(
        [
            new("Departures from the standard", report.NotStandard.IsEmpty ? "None were noted." : PlainWords.Sentence(PlainWords.Upper(string.Join("; ", report.NotStandard)))),
            .. report.NotCounted.IsEmpty
                ? Array.Empty<Point>()
                : [new("Attempts that do not count", string.Join("; ", report.NotCounted.Select(r => $"{r.Title}, {PlainWords.Lower(Phrases.Hand(r.Hand, r.Role))}: {Phrases.Result(r)}{(r.Reason is null ? "" : $" ({r.Reason})")}")) + ".")],
            .. report.Rows.Where(r => r.Note is not null).Select(r => new Point($"Note on {PlainWords.Lower(r.Title)}, {PlainWords.Lower(Phrases.Hand(r.Hand, r.Role))}", r.Note!)),
            .. report.Comment is { } comment ? [new Point("Therapist's comment", comment)] : Array.Empty<Point>(),
        ]);
    }

    private static Points Norms(SessionReport report) => new(report.NormSources.IsEmpty
        ? [new("No norm", "No usable norm covers this patient; nothing was judged.")]
        : [.. report.NormSources.Select(s => new Point($"{s.Id} version {s.Version}", $"{PlainWords.Sentence(s.Source)} How it was obtained: {Phrases.Evidence(s.Evidence)}."))]);
}
