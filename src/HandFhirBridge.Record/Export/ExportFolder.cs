using System.Security.Cryptography;

namespace HandFhirBridge.Record.Export;

/// <summary>
/// Where the files of this process's exports lie. Each process has a folder of its own and holds a lock as long as it lives; what no process
/// holds any more was left by one that was killed, and goes when the next one starts.
/// </summary>
internal sealed class ExportFolder : IDisposable
{
    private const string LockEnding = ".lock";

    private readonly string root;
    private readonly string own;
    private FileStream? held;

    public ExportFolder(string root)
    {
        this.root = root;
        own = Path.Combine(root, NewName());
        ClearAbandoned();
    }

    /// <summary>A name that cannot be guessed.</summary>
    public static string NewName() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    /// <summary>Makes the folder of an export; called by one at a time.</summary>
    public string Make(string id)
    {
        if (held is null)
        {
            MakePrivate(root);
            // The lock is there before the folder, so that no other process takes the folder for an abandoned one.
            held = new FileStream(own + LockEnding, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }

        return MakePrivate(Path.Combine(own, id));
    }

    public void Dispose()
    {
        if (held is not null)
        {
            Remove(own);
            held.Dispose();
        }
    }

    /// <summary>Removes a folder with all its files. One that is being read goes when it has been read.</summary>
    public static void Remove(string folder)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private void ClearAbandoned()
    {
        if (!Directory.Exists(root))
        {
            return;
        }

        foreach (var folder in Directory.GetDirectories(root))
        {
            try
            {
                using var mine = new FileStream(folder + LockEnding, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
                Remove(folder);
            }
            catch (IOException)
            {
                // Another process holds it.
            }
        }
    }

    private static string MakePrivate(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return Directory.CreateDirectory(folder).FullName;
        }

        return Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute).FullName;
    }
}
