namespace HandFhirBridge.Assessment.Tests.Intake;

/// <summary>The repository's example files.</summary>
internal static class Examples
{
    public static string Root { get; } = Find();

    public static string Folder => Path.Combine(Root, "examples");

    public static IEnumerable<string> Sessions() =>
        Directory.EnumerateFiles(Path.Combine(Folder, "sessions"), "*.json", SearchOption.AllDirectories).Order(StringComparer.Ordinal);

    /// <summary>A session without any remark: the base of documents that are wrong in one way.</summary>
    public static string Clean => Path.Combine(Folder, "sessions", "harbour-hand-clinic", "tarrowby-visit-3.json");

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
