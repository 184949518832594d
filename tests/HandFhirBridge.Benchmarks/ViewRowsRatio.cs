using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Benchmarks;

/// <summary>Rows of the view of trials from NDJSON, against npm fhirpath on the same file: no runner of views is to be had from npm.</summary>
internal static class ViewRowsRatio
{
    private static string Root => Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "../.."));

    /// <summary>Null where the other side's packages are absent.</summary>
    internal static async Task<Ratio?> MeasureAsync(int runs, int sessions)
    {
        if (!Directory.Exists(Path.Combine(Root, "tests", "peers", "node_modules")))
        {
            Console.Error.WriteLine("viewRows is left out: run npm ci in tests/peers.");
            return null;
        }

        var folder = Directory.CreateTempSubdirectory("hfb-measure-");
        try
        {
            var set = new GatheredSet(folder.FullName);
            Write(set.File("measured", "Observation"), sessions);
            var view = StandardViews.Named("trials")!;
            double Ours()
            {
                var start = Stopwatch.GetTimestamp();
                var rows = new ViewRows(set, view).Read().Count();
                return Stopwatch.GetElapsedTime(start).TotalMilliseconds * 1000 / rows;
            }

            for (var warming = 0; warming < 4; warming++)
            {
                Ours();
            }

            var (mine, theirs) = await Alternating.MeasureAsync(runs, () => System.Threading.Tasks.Task.FromResult(Math.Min(Ours(), Ours())), () => TheirsAsync(set.File("measured", "Observation")));
            return new("viewRows", mine, theirs, "µs a row", "npm fhirpath 5 with every expression compiled, best of 2 in a warm process, one thread");
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static void Write(string path, int sessions)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        var serializer = new FhirJsonSerializer();
        using var lines = File.CreateText(path);
        for (var i = 0; i < sessions; i++)
        {
            foreach (var observation in Corpus.Bundle(Corpus.Paths[i % Corpus.Paths.Length]).Entry.Select(e => e.Resource).OfType<Observation>())
            {
                (observation.Text, observation.Note) = (null, []); // as it is gathered
                observation.Id = string.Create(CultureInfo.InvariantCulture, $"{observation.Id![..20]}{i}");
                observation.Identifier[0].Value = observation.Identifier[0].Value!.Replace("/", string.Create(CultureInfo.InvariantCulture, $"/{i}-"), StringComparison.Ordinal);
                lines.WriteLine(serializer.SerializeToString(observation));
            }
        }
    }

    private static async Task<double> TheirsAsync(string file)
    {
        using var node = Process.Start(new ProcessStartInfo("node", ["view-rows.mjs", Path.Combine(Root, "profiles", "views", "ViewDefinition-hfb-trials.json"), file, "--times", "2"])
        {
            WorkingDirectory = Path.Combine(Root, "tests", "peers"),
            RedirectStandardOutput = true,
        })!;
        var said = JsonNode.Parse(await node.StandardOutput.ReadToEndAsync())!;
        await node.WaitForExitAsync();
        return (double)said["milliseconds"]! * 1000 / (int)said["rows"]!;
    }

    private static string Here([System.Runtime.CompilerServices.CallerFilePath] string path = "") => path;
}
