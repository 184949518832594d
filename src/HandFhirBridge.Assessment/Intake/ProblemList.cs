using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Assessment.Intake;

/// <summary>Collects the problems of one document and puts them in the order of the document.</summary>
internal sealed class ProblemList
{
    private const int LongestShown = 200;
    private readonly List<Problem> _problems = [];

    public bool HasErrors => _problems.Exists(p => p.Severity == Severity.Error);

    /// <summary>Notes a problem. <paramref name="sentence"/> begins after the field's name: <c>is 0; …</c>.</summary>
    public void Add(ProblemKind kind, string path, string sentence, string? found = null, string? remedy = null) =>
        _problems.Add(kind.At(path, $"{JsonPath.Label(path)} {sentence}", found is null ? null : Shown(found), remedy));

    /// <summary>Value as it may be shown in a sentence: cut after 200 characters.</summary>
    public static string Shown(string found) =>
        found.Length <= LongestShown ? found : string.Concat(found.AsSpan(0, LongestShown - (char.IsHighSurrogate(found[LongestShown - 1]) ? 1 : 0)), "…");

    public bool AnyAt(string path) => _problems.Exists(p => p.Location == path);

    public ImmutableArray<Problem> InOrderOf(JsonElement root)
    {
        if (_problems.Count < 2)
        {
            return [.. _problems];
        }

        var places = new Dictionary<string, int>(StringComparer.Ordinal);
        Walk(root, JsonPath.Root, places);
        return [.. _problems.OrderBy(p => PlaceOf(p.Location, places))];
    }

    private static void Walk(JsonElement element, string path, Dictionary<string, int> places)
    {
        places.TryAdd(path, places.Count);
        if (element.ValueKind == JsonValueKind.Object)
        {
            foreach (var property in element.EnumerateObject())
            {
                Walk(property.Value, JsonPath.Property(path, property.Name), places);
            }
        }
        else if (element.ValueKind == JsonValueKind.Array)
        {
            var index = 0;
            foreach (var item in element.EnumerateArray())
            {
                Walk(item, JsonPath.Item(path, index++), places);
            }
        }
    }

    // What is missing stands where it should have been: with its parent.
    private static int PlaceOf(string path, Dictionary<string, int> places)
    {
        for (string? at = path; at is not null; at = JsonPath.Parent(at))
        {
            if (places.TryGetValue(at, out var place))
            {
                return place;
            }
        }

        return 0;
    }
}
