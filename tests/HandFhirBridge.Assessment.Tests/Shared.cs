using System.Runtime.CompilerServices;

namespace HandFhirBridge.Assessment.Tests;

/// <summary>Published material that does not stand in this repository.</summary>
internal static class Shared
{
    /// <summary>A folder of it; the test is skipped where it is not at hand.</summary>
    public static string Folder(string name, [CallerFilePath] string here = "")
    {
        var root = Environment.GetEnvironmentVariable("HFB_SHARED") ?? Path.GetFullPath(Path.Combine(here, "../../../../shared"));
        var folder = Path.Combine(root, name);
        Assert.SkipUnless(Directory.Exists(folder), $"The published material {name} is not at hand; name its folder with HFB_SHARED.");
        return folder;
    }
}
