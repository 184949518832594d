using System.Globalization;
using System.Text;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Reports;

/// <summary>A report as lines of text: task by hand with seconds, norm, z and judgement, readable at 130 columns.</summary>
/// <param name="output">Where the lines go.</param>
public sealed class ReportTable(TextWriter output)
{
    private static readonly CompositeFormat Columns = CompositeFormat.Parse("  {0,-24} {1,-18} {2,10} {3,8}  {4,-24} {5,6} {6,7}  {7}");

    /// <summary>Writes <paramref name="report"/>.</summary>
    public void Write(SessionReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        WriteHead(report);
        output.WriteLine(Line("Task", "Hand", "Seconds", "Change", "Norm mean (SD)", "z", "% mean", "Judgement"));
        output.WriteLine("  " + new string('-', 124));
        foreach (var row in report.Rows)
        {
            output.WriteLine(Line(
                row.Title, HandOf(row.Hand, row.Role), Seconds(row), Change(report, row.Task, row.Hand), NormOf(row, report.SexForNorm),
                row.Z?.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture) ?? "",
                row.PercentOfMean?.ToString(CultureInfo.InvariantCulture) ?? "", Verdict(row)));
        }

        WriteTotals(report);
        WriteFoot(report);
    }

    private void WriteHead(SessionReport report)
    {
        output.WriteLine();
        output.WriteLine($"Patient {report.Patient.Value}, {report.AgeInYears} years, {(report.SexForNorm == SexForNorm.Unknown ? "sex for the norm unknown" : $"norm for {Word(report.SexForNorm)}")}; {Word(report.Dominance.Handedness)}{(report.Dominance.Handedness == Handedness.Ambidextrous ? $", {Word(report.Dominance.TestedAsDominant)} tested as dominant" : "-handed")}");
        output.WriteLine($"Given {report.StartedAt:yyyy-MM-dd HH:mm zzz} at {report.Site} by {report.Performer}; session {report.SessionId}, revision {report.Revision}");
        if (report.Demonstration)
        {
            output.WriteLine("DEMONSTRATION: norms from memory. Says nothing about a patient.");
        }
    }

    private void WriteTotals(SessionReport report)
    {
        foreach (var total in report.Totals.OrderBy(t => t.Total, StringComparer.Ordinal).ThenBy(t => t.Role))
        {
            var norm = total.NormMean is { } mean ? $"{mean.ToString(CultureInfo.InvariantCulture)} (no SD exists)" : "";
            var missing = total.Seconds is null ? $"no total; not completed: {string.Join(", ", total.MissingTasks.Select(Word))}" : "";
            output.WriteLine(Line(
                Word(total.Total), HandOf(total.Hand, total.Role), total.Seconds?.ToString(CultureInfo.InvariantCulture) ?? "none",
                Change(report, total.Total, total.Hand), norm, "", "", missing));
        }
    }

    private void WriteFoot(SessionReport report)
    {
        foreach (var row in report.Rows.Where(r => r.Departures.Length > 0))
        {
            output.WriteLine($"  Departure: {row.Title}, {Word(row.Hand)}: {string.Join(", ", row.Departures.Select(d => Word(d)))}");
        }

        foreach (var attempt in report.NotCounted)
        {
            output.WriteLine($"  Not counted: {attempt.Title}, {Word(attempt.Hand)}: {Word(attempt.Outcome)}{(attempt.Reason is null ? "" : $" ({attempt.Reason})")}");
        }

        if (report.OrderDeparted)
        {
            output.WriteLine("  The trials did not run in the standard order.");
        }

        WriteChange(report);
        foreach (var source in report.NormSources)
        {
            output.WriteLine($"  Norms: {source.Id} {source.Version} [{Word(source.Evidence)}] {source.Source}");
        }

        output.WriteLine($"  {report.Caution}");
    }

    private void WriteChange(SessionReport report)
    {
        if (report.Change is [{ } first, ..])
        {
            var verdicts = report.Change.Where(c => c.Verdict is not null).ToList();
            output.WriteLine($"  Change is since the session of {first.EarlierStartedAt:yyyy-MM-dd}; negative is faster.{(verdicts.Count == 0 ? " No verdict on it: no measurement error is set." : "")}");
            foreach (var change in verdicts)
            {
                output.WriteLine($"  {Word(change.Subject)}, {Word(change.Hand)}: {change.Verdict}");
            }
        }
    }

    private static string Change(SessionReport report, string subject, Hand hand) =>
        report.Change.FirstOrDefault(c => c.Subject == subject && c.Hand == hand)?.Seconds
            ?.ToString("+0.00;-0.00;0.00", CultureInfo.InvariantCulture) ?? "";

    private static string Line(params object[] cells) =>
        string.Format(CultureInfo.InvariantCulture, Columns, cells).TrimEnd();

    private static string Seconds(ReportRow row) => row.Outcome switch
    {
        TrialOutcome.Completed => row.Seconds?.ToString(CultureInfo.InvariantCulture) ?? "",
        TrialOutcome.StoppedAtCap => "> " + row.Seconds?.ToString(CultureInfo.InvariantCulture),
        _ => "none",
    };

    private static string NormOf(ReportRow row, SexForNorm sex) => string.Join(
        "; ",
        row.Norms.Select(n => string.Create(
            CultureInfo.InvariantCulture,
            $"{n.Mean} ({n.StandardDeviation}){(sex != SexForNorm.Unknown ? "" : n.Sex == SexForNorm.Female ? " F" : " M")}{(n.Evidence == Evidence.Recalled ? "*" : "")}")));

    private static string Verdict(ReportRow row) => (row.Judgement, row.WhyNotJudged) switch
    {
        (Judgement.Slow, _) => "SLOW (beyond 2 SD)",
        (Judgement.WithinNorm, _) => "within norm",
        (_, NoJudgement.NoTime) => Word(row.Outcome) + (row.Reason is null ? "" : $": {row.Reason}"),
        (_, { } why) => "not judged: " + Word(why),
        _ => "",
    };

    private static string HandOf(Hand hand, HandRole role) => $"{Word(hand)}, {Word(role)}";

    private static string Word(Enum value) => Words.Of(value);

    private static string Word(string id) => Words.Of(id);
}
