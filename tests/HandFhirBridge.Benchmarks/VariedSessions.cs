using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Benchmarks;

/// <summary>Sessions that nobody has seen before: the examples with other ids, patients, staff, days and times.</summary>
internal static class VariedSessions
{
    /// <summary>Mapped sessions, one of each example in turn.</summary>
    /// <param name="random">Decides what they are.</param>
    /// <param name="count">How many.</param>
    internal static Bundle[] Take(Random random, int count) => [.. Enumerable.Range(0, count).Select(at => One(random, Corpus.Paths[at % Corpus.Paths.Length]))];

    private static Bundle One(Random random, string path)
    {
        var session = JsonNode.Parse(File.ReadAllBytes(path))!.AsObject();
        var person = random.Next(100_000, 999_999);
        session["sessionId"] = string.Create(CultureInfo.InvariantCulture, $"varied-{random.NextInt64()}");
        session["patient"]!["identifier"]!["value"] = string.Create(CultureInfo.InvariantCulture, $"P-{person}");
        session["performer"]!["identifier"]!["value"] = string.Create(CultureInfo.InvariantCulture, $"T-{person % 100}");
        session["performer"]!["name"] = string.Create(CultureInfo.InvariantCulture, $"Therapist {person % 100}");
        var trials = session["trials"]!.AsArray().Select(trial => trial!.AsObject()).ToList();
        foreach (var trial in trials.Where(trial => (string?)trial["outcome"] == "completed"))
        {
            // Not longer than it was, so that what came after it still did.
            trial["seconds"] = Math.Max(0.5m, decimal.Round(trial["seconds"]!.GetValue<decimal>() * (700 + random.Next(300)) / 1000, 2));
        }

        var document = Encoding.UTF8.GetBytes(ShiftDays(session.ToJsonString(), random.Next(1, 28)));
        return Corpus.Map(Corpus.Score(document), document);
    }

    // The day of the month of every time in the document, which all are of one day.
    private static string ShiftDays(string document, int day)
    {
        var written = JsonNode.Parse(document)!["startedAt"]!.GetValue<string>()[..10];
        return document.Replace(written + "T", string.Create(CultureInfo.InvariantCulture, $"{written[..8]}{day:00}T"), StringComparison.Ordinal);
    }
}
