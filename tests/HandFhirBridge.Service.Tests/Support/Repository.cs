using System.Runtime.CompilerServices;

namespace HandFhirBridge.Service.Tests.Support;

/// <summary>Finds files of the checkout the tests were built from.</summary>
internal static class Repository
{
    public static string Root { get; } = FindRoot();

    public static string Example(params string[] parts) => Path.Combine([Root, "examples", .. parts]);

    /// <summary>The service as it was built for these tests.</summary>
    public static string ServiceProgram => Path.Combine(AppContext.BaseDirectory, "handfhirbridge.dll");

    private static string FindRoot([CallerFilePath] string here = "")
    {
        var folder = new DirectoryInfo(Path.GetDirectoryName(here)!);
        while (!File.Exists(Path.Combine(folder.FullName, "HandFhirBridge.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("HandFhirBridge.sln is in no folder above the tests.");
        }

        return folder.FullName;
    }
}
