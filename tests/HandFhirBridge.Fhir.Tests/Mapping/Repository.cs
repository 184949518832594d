namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>Files of the repository.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    public static IEnumerable<string> ExampleSessions() =>
        Directory.EnumerateFiles(Path.Combine(Root, "examples", "sessions"), "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal);

    public static string Package(string file) => Path.Combine(Root, "profiles", "package", file);

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "HandFhirBridge.sln")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("HandFhirBridge.sln is in no folder above the tests.");
        }

        return folder.FullName;
    }
}
