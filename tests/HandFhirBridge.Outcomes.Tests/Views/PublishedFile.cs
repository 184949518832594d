using System.Runtime.CompilerServices;
using System.Text.Json;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>The published test files of SQL on FHIR v2 (FHIR/sql-on-fhir-v2, commit 49fc1ad, tests/; licence beside them), unmodified.</summary>
public static class PublishedFile
{
    public static string Root { get; } = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(Here())!, "../../.."));

    public static IReadOnlyList<string> Names { get; } =
        [.. Directory.GetFiles(Folder, "*.json").Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)];

    private static string Folder => Path.Combine(Path.GetDirectoryName(Here())!, "Published");

    public static JsonElement Read(string name)
    {
        using var document = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Folder, name)));
        return document.RootElement.Clone();
    }

    public static IEnumerable<JsonElement> Cases(string name) => Read(name).GetProperty("tests").EnumerateArray();

    private static string Here([CallerFilePath] string path = "") => path;
}
