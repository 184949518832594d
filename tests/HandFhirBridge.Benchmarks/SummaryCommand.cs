using System.Collections.Immutable;
using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Outcomes.Summaries;

namespace HandFhirBridge.Benchmarks;

/// <summary>Measures summaries over a million trials, from opening the rows to the answer.</summary>
internal static class SummaryCommand
{
    internal const string Usage = "summary";

    private const int Runs = 7;

    internal static int Run()
    {
        using var trials = new MillionTrials(MillionTrials.Persons);
        using var process = Process.GetCurrentProcess();
        ForgetPeak();
        foreach (var (name, question) in Questions)
        {
            process.Refresh();
            var (before, times) = (process.TotalProcessorTime, new List<double>());
            var groups = 0;
            for (var run = 0; run < Runs; run++)
            {
                var start = Stopwatch.GetTimestamp();
                using var rows = trials.Open();
                groups = Summarizer.Answer(rows, question).Groups.Length;
                times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }

            process.Refresh();
            times.Sort();
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{name}: {groups} groups, median {times[Runs / 2]:F0} ms ({times[0]:F0} to {times[^1]:F0}), {Runs} runs; {(process.TotalProcessorTime - before).TotalMilliseconds / Runs:F0} ms of the processors a run"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"1,008,000 trials; peak memory {process.PeakWorkingSet64 / 1048576} MiB"));
        return 0;
    }

    // proc(5): 5 in clear_refs sets the peak to what is held now, so that making the rows is not counted. Elsewhere it is.
    private static void ForgetPeak()
    {
        GC.Collect();
        if (OperatingSystem.IsLinux())
        {
            File.WriteAllText("/proc/self/clear_refs", "5");
        }
    }

    /// <summary>What is asked.</summary>
    internal static IEnumerable<(string Name, SummaryQuestion Question)> Questions { get; } =
    [
        ("by task and hand role", new([SummaryDimension.Task, SummaryDimension.HandRole], ImmutableSortedDictionary<SummaryDimension, string>.Empty)),
        ("by site, one task", new([SummaryDimension.Site], ImmutableSortedDictionary<SummaryDimension, string>.Empty.Add(SummaryDimension.Task, "task-1"))),
        ("by task, sex and age band", new([SummaryDimension.Task, SummaryDimension.Sex, SummaryDimension.AgeBand], ImmutableSortedDictionary<SummaryDimension, string>.Empty)),
    ];
}
