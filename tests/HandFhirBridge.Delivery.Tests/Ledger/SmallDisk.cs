using System.Diagnostics;

namespace HandFhirBridge.Delivery.Tests.Ledger;

/// <summary>A file system of one mebibyte; the test is skipped where it may not be mounted.</summary>
internal sealed class SmallDisk : IDisposable
{
    private SmallDisk(string path) => Path = path;

    public string Path { get; }

    public static SmallDisk Mount(string folder)
    {
        var path = Directory.CreateDirectory(System.IO.Path.Combine(folder, "disk")).FullName;
        if (!OperatingSystem.IsLinux() || Run("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", path) != 0)
        {
            Assert.Skip("No right to mount a file system here; a full disk cannot be had.");
        }

        return new(path);
    }

    /// <summary>Takes up all that is left.</summary>
    /// <returns>File to be deleted to have room again.</returns>
    public string Fill()
    {
        var rest = System.IO.Path.Combine(Path, "rest");
        var block = new byte[4096];
        try
        {
            using var file = new FileStream(rest, FileMode.CreateNew, FileAccess.Write, FileShare.None, bufferSize: 0);
            while (true)
            {
                file.Write(block);
            }
        }
        catch (IOException)
        {
            return rest;
        }
    }

    public void Dispose() => Run("umount", "-l", Path);

    private static int Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        return process.ExitCode;
    }
}
