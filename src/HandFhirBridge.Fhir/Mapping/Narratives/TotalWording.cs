using HandFhirBridge.Assessment.Scoring;

namespace HandFhirBridge.Fhir.Mapping.Narratives;

/// <summary>Totals in words.</summary>
internal static class TotalWording
{
    /// <summary>The sum, or why there is none.</summary>
    public static string Result(SessionContext context, HandTotal total) => total.Seconds is { } seconds ? PlainWords.Seconds(seconds) : WhyMissing(context, total);

    public static string WhyMissing(SessionContext context, HandTotal total) =>
        $"No total: {PlainWords.List([.. total.MissingTasks.Select(task => Wording.Task(context.Words, task))])} not completed.";

    /// <summary>The sum of the norm means of the tasks, with where they are from. It has no SD, so nothing is judged by it.</summary>
    public static string NormMean(SessionContext context, HandTotal total, decimal mean)
    {
        var task = context.Instrument.Totals.Single(t => t.Id == total.TotalId).Tasks[0];
        var norm = context.Counted(task, total.Hand).Norms[0];
        return $"Sum of the norm means of these tasks: {PlainWords.Seconds(mean)} ({NormWording.Origin(norm)}). "
            + $"No norm gives the SD of this total, so it is not judged.{NormWording.Mark(norm)}";
    }
}
