using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Writing;

namespace HandFhirBridge.Delivery.Dispatch;

/// <summary>Makes results of attempts.</summary>
internal static class Attempts
{
    /// <summary>A success.</summary>
    public static AttemptResult Delivered(string answer, string? reportId) =>
        new(AttemptStatus.Delivered, null) { Answer = answer, ReportId = reportId };

    /// <summary>After a request that could change nothing.</summary>
    public static AttemptResult Of(TargetAnswer answer, string what) => Of(answer, wrote: false, RefusalText.Of(answer, (SessionBundle?)null), $"On {what}: ");

    /// <summary>After a write.</summary>
    public static AttemptResult Of(WriteResult written) => Of(written.Answer, wrote: !written.WasReading, written.Text, written.WasReading ? "On a search before writing: " : "") with { Rung = (int)written.Rung };

    private static AttemptResult Of(TargetAnswer answer, bool wrote, string text, string what)
    {
        var (status, kind) = AnswerPolicy.Judge(answer, wrote);
        return new(status, Say(kind, answer)) { HttpStatus = answer.Status, Answer = what + text, NextAttemptAt = answer.RetryAt };
    }

    /// <summary>The reason shown in lists quotes no body: a server may repeat patient data in it.</summary>
    private static Problem Say(ProblemKind kind, TargetAnswer answer) => kind.At(
        "", answer.Status is { } status ? $"{kind.Title} (HTTP {status})." : $"{kind.Title} ({answer.Note}).");
}
