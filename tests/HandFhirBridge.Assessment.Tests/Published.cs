using System.Runtime.CompilerServices;

namespace HandFhirBridge.Assessment.Tests;

/// <summary>Published material that does not stand in this repository.</summary>
internal static class Published
{
    private static readonly string Root = Environment.GetEnvironmentVariable("HFB_SHARED") ?? BesideTheRepository();

    /// <summary>A folder of it; the test is skipped where it is not at hand.</summary>
    public static string Folder(string name)
    {
        var folder = Path.Combine(Root, name);
        Assert.SkipUnless(Directory.Exists(folder), $"The published material {name} is not at hand; name its folder with HFB_SHARED.");
        return folder;
    }

    private static string BesideTheRepository([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "../../../shared"));
}
