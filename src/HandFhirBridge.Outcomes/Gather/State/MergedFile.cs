using System.Globalization;
using System.Text.Json;
using HandFhirBridge.Outcomes.Gather.Reading;

namespace HandFhirBridge.Outcomes.Gather.State;

/// <summary>Merges what came into what was there: one line an id, the copy changed last; the file is replaced whole.</summary>
internal static class MergedFile
{
    /// <summary>Merges. Doing it twice gives the same.</summary>
    /// <param name="merged">File that is replaced.</param>
    /// <param name="incoming">What came; it need not exist.</param>
    /// <param name="keepOld">False drops what was there and did not come again.</param>
    /// <param name="removed">Ids that the source says it deleted.</param>
    /// <param name="wanted">Which resources are kept at all.</param>
    /// <returns>Resources held now.</returns>
    public static long Merge(string merged, string incoming, bool keepOld, IReadOnlySet<string> removed, Func<JsonElement, bool> wanted)
    {
        var latest = Latest(incoming);
        var aside = merged + ".new";
        var count = 0L;
        using (var file = new FileStream(aside, FileMode.Create, FileAccess.Write))
        using (var text = new StreamWriter(file))
        {
            foreach (var line in keepOld ? Lines(merged) : [])
            {
                using var resource = JsonDocument.Parse(line);
                if (OwnResources.Text(resource.RootElement, "id") is { } id && !latest.ContainsKey(id) && !removed.Contains(id) && wanted(resource.RootElement))
                {
                    text.WriteLine(line);
                    count++;
                }
            }

            var number = 0L;
            foreach (var line in Lines(incoming))
            {
                using var resource = JsonDocument.Parse(line);
                if (OwnResources.Text(resource.RootElement, "id") is { } id && latest[id].Number == number++ && wanted(resource.RootElement))
                {
                    text.WriteLine(line);
                    count++;
                }
            }

            text.Flush();
            file.Flush(flushToDisk: true);
        }

        if (Same(aside, merged))
        {
            File.Delete(aside); // what is made of the file stays good
        }
        else
        {
            File.Move(aside, merged, overwrite: true);
        }

        return count;
    }

    /// <summary>Lines of a file; none if it does not exist.</summary>
    public static IEnumerable<string> Lines(string path) => File.Exists(path) ? File.ReadLines(path).Where(line => line.Length > 0) : [];

    private static bool Same(string one, string other) =>
        File.Exists(other) && new FileInfo(one).Length == new FileInfo(other).Length && File.ReadLines(one).SequenceEqual(File.ReadLines(other), StringComparer.Ordinal);

    private static Dictionary<string, (DateTimeOffset Updated, long Number)> Latest(string incoming)
    {
        var latest = new Dictionary<string, (DateTimeOffset Updated, long Number)>(StringComparer.Ordinal);
        var number = 0L;
        foreach (var line in Lines(incoming))
        {
            using var resource = JsonDocument.Parse(line);
            if (OwnResources.Text(resource.RootElement, "id") is { } id)
            {
                var updated = Updated(resource.RootElement) ?? DateTimeOffset.MinValue;
                if (!latest.TryGetValue(id, out var known) || updated >= known.Updated)
                {
                    latest[id] = (updated, number);
                }

                number++;
            }
        }

        return latest;
    }

    /// <summary>When the server last changed a resource; null where it does not say.</summary>
    public static DateTimeOffset? Updated(JsonElement resource) =>
        resource.TryGetProperty("meta", out var meta) && OwnResources.Text(meta, "lastUpdated") is { } text
        && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment) ? moment : null;
}
