using System.Diagnostics;
using System.Runtime.InteropServices;

namespace HandFhirBridge.Benchmarks;

/// <summary>The program that first verdicts are measured with: published with ahead-of-time code (ReadyToRun), as the service is.</summary>
/// <param name="Program">Path of the executable.</param>
/// <param name="Kind">How it is built, in words.</param>
internal sealed record PublishedBuild(string Program, string Kind)
{
    private const string Name = "HandFhirBridge.Benchmarks";

    /// <summary>A published build as new as this one; else, if it may be made, a new one; else this one, compiled just in time.</summary>
    internal static async Task<PublishedBuild> FindOrMakeAsync(bool mayMake)
    {
        var here = AppContext.BaseDirectory;
        var published = Path.Combine(here, "ahead-of-time");
        var program = Path.Combine(published, Name);
        if (!IsCurrent(program, here) && mayMake)
        {
            await PublishAsync(ProjectFolder(here), published);
        }

        return IsCurrent(program, here) ? new(program, "ahead-of-time code") : new(Path.Combine(here, Name), "just-in-time code");
    }

    private static bool IsCurrent(string program, string here) =>
        File.Exists(program) && File.GetLastWriteTimeUtc(program) >= File.GetLastWriteTimeUtc(Path.Combine(here, Name + ".dll"));

    private static async Task PublishAsync(string project, string destination)
    {
        string[] arguments =
        [
            "publish", project, "-c", "Release", "-r", RuntimeInformation.RuntimeIdentifier, "--no-self-contained",
            "-p:PublishReadyToRun=true", "-o", destination, "--nologo", "-v", "quiet",
        ];
        using var process = Process.Start(new ProcessStartInfo("dotnet", arguments) { RedirectStandardOutput = true })!;
        var said = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException("The ahead-of-time build failed: " + said);
        }

        File.SetLastWriteTimeUtc(Path.Combine(destination, Name), TimeProvider.System.GetUtcNow().UtcDateTime);
    }

    private static string ProjectFolder(string here)
    {
        var folder = new DirectoryInfo(here);
        while (!File.Exists(Path.Combine(folder.FullName, Name + ".csproj")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException($"{Name}.csproj is in no folder above {here}.");
        }

        return folder.FullName;
    }
}
