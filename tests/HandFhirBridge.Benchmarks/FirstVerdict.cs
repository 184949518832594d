using System.Diagnostics;
using System.Globalization;
using HandFhirBridge.Service.Cli;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Benchmarks;

/// <summary>
/// From the start of a process to its verdict on one session: by the command <c>check</c>, which reads, scores, maps, prints the report and
/// validates; or, for comparison, read, scored and mapped without the printed report, and validated as the library sets itself up.
/// </summary>
internal static class FirstVerdict
{
    internal const string Command = "first-verdict";
    internal const string Ours = "ours";
    internal const string Full = "full";

    /// <summary>Runs in the process that is measured; prints the milliseconds since its start, its peak memory in MiB and whether it found errors.</summary>
    internal static async Task<int> RunAsync(string side, string path)
    {
        var errors = side == Ours
            ? await CommandLine.RunAsync(["check", path, "--demonstration"], Stream.Null, TextWriter.Null, Console.Error, CancellationToken.None)
            : LibraryDefaults.Create().Validate(Corpus.Bundle(path)).Issue.Count(issue => issue.Severity == OperationOutcome.IssueSeverity.Error);
        using var process = Process.GetCurrentProcess();
        var took = TimeProvider.System.GetUtcNow().UtcDateTime - process.StartTime.ToUniversalTime();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{took.TotalMilliseconds:F1} {process.PeakWorkingSet64 / 1048576.0:F1} {errors}"));
        return 0;
    }

    /// <summary>Starts the process that is measured and reads what it printed.</summary>
    internal static (double Milliseconds, double PeakMemory) Measure(string program, string side, string path)
    {
        using var process = Process.Start(new ProcessStartInfo(program, [Command, side, path]) { RedirectStandardOutput = true })!;
        var printed = process.StandardOutput.ReadToEnd().Split(' ');
        process.WaitForExit();
        if (process.ExitCode != 0 || printed[2].Trim() != "0")
        {
            throw new InvalidOperationException($"'{program} {Command} {side}' found errors in a good session or failed.");
        }

        return (double.Parse(printed[0], CultureInfo.InvariantCulture), double.Parse(printed[1], CultureInfo.InvariantCulture));
    }
}
