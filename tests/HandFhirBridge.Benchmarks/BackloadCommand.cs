using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;

namespace HandFhirBridge.Benchmarks;

/// <summary>
/// Hands many old sessions in by the program's own command, as published with ahead-of-time code, and says every few seconds how
/// many are in the ledger and what that took.
/// </summary>
internal static class BackloadCommand
{
    internal const string Usage = "backload PROGRAM [--count N] [--csv]";

    private static readonly TimeSpan Between = TimeSpan.FromSeconds(10);

    internal static async Task<int> RunAsync(string program, string[] options)
    {
        var at = Array.IndexOf(options, "--count");
        var count = at >= 0 && at + 1 < options.Length ? int.Parse(options[at + 1], CultureInfo.InvariantCulture) : 100_000;
        var folder = Directory.CreateTempSubdirectory("hfb-backload-");
        try
        {
            var file = options.Contains("--csv") ? Table(folder, count) : Lines(folder, count);
            return await LoadAsync(program, folder, file, count);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static async Task<int> LoadAsync(string program, DirectoryInfo folder, string file, int count)
    {
        using var process = Process.Start(new ProcessStartInfo(program, ["submit", file, "--queue-only", "--demonstration"]) { WorkingDirectory = folder.FullName })!;
        var (start, most) = (Stopwatch.GetTimestamp(), 0L);
        while (!process.HasExited)
        {
            await Task.WhenAny(process.WaitForExitAsync(), Task.Delay(Between));
            if (!process.HasExited)
            {
                process.Refresh();
                most = Math.Max(most, process.PeakWorkingSet64);
                Console.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{Stopwatch.GetElapsedTime(start).TotalSeconds,7:F0} s, {process.WorkingSet64 >> 20,5} MiB, {process.TotalProcessorTime.TotalSeconds,7:F0} s of processor, ledger {LedgerMegabytes(folder),8} MiB"));
            }
        }

        var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{count} sessions of {Path.GetExtension(file)} in {seconds:F0} s: {count / seconds:F1} a second; {most >> 20} MiB at most; ledger {LedgerMegabytes(folder) * 1024.0 / count:F0} KiB a session"));
        return process.ExitCode;
    }

    private static long LedgerMegabytes(DirectoryInfo folder) =>
        folder.EnumerateFiles("ledger.db*", SearchOption.AllDirectories).Sum(file => file.Length) >> 20;

    private static string Lines(DirectoryInfo folder, int count)
    {
        var sessions = Corpus.Paths.Select(path => JsonNode.Parse(File.ReadAllBytes(path))!).ToArray();
        var path = Path.Combine(folder.FullName, "old.ndjson");
        using var writer = new StreamWriter(path);
        for (var number = 0; number < count; number++)
        {
            var session = sessions[number % sessions.Length];
            session["sessionId"] = string.Create(CultureInfo.InvariantCulture, $"old-{number}");
            writer.WriteLine(session.ToJsonString());
        }

        return path;
    }

    /// <summary>The sessions of an example table again and again under other ids.</summary>
    private static string Table(DirectoryInfo folder, int count)
    {
        var rows = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "harbour-hand-clinic-january.csv"));
        var sessions = rows.Skip(1).GroupBy(row => row.Split(',')[0]).Select(group => group.ToArray()).ToArray();
        var path = Path.Combine(folder.FullName, "old.csv");
        using var writer = new StreamWriter(path);
        writer.WriteLine(rows[0]);
        for (var number = 0; number < count; number++)
        {
            foreach (var row in sessions[number % sessions.Length])
            {
                writer.WriteLine(string.Create(CultureInfo.InvariantCulture, $"old-{number}{row.AsSpan(row.IndexOf(',', StringComparison.Ordinal))}"));
            }
        }

        return path;
    }
}
