using HandFhirBridge.Service.Cli;

namespace HandFhirBridge.Service.Hosting;

/// <summary>One process delivers from a data directory at a time; the lock goes with the process, however it ends.</summary>
public sealed class InstanceLock : IDisposable
{
    private readonly FileStream file;

    private InstanceLock(FileStream file) => this.file = file;

    /// <summary>Takes the lock.</summary>
    /// <exception cref="CommandFailedException">Another process holds it.</exception>
    public static InstanceLock Take(string dataDirectory)
    {
        Directory.CreateDirectory(dataDirectory);
        return TryTake(dataDirectory) ?? throw new CommandFailedException(
            $"Another HandFhirBridge process delivers from {Path.GetFullPath(dataDirectory)}. Stop it first, or set another DataDirectory.");
    }

    /// <summary>Takes the lock, or gives null if another process holds it.</summary>
    public static InstanceLock? TryTake(string dataDirectory)
    {
        Directory.CreateDirectory(dataDirectory);
        try
        {
            return new(new FileStream(
                Path.Combine(dataDirectory, "instance.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (IOException) when (Directory.Exists(dataDirectory))
        {
            return null;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => file.Dispose();
}
