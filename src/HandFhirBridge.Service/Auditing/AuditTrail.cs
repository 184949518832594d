using System.Globalization;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Service.Auditing;

/// <summary>
/// Keeps who read or wrote which patient's data: one FHIR AuditEvent a line, one file a day and process, only ever added to. A line
/// is on the disk before the answer leaves; what cannot be written down is not done.
/// </summary>
/// <param name="directory">Where the files lie; made when the first line is written.</param>
/// <param name="clock">Gives the time.</param>
public sealed class AuditTrail(string directory, TimeProvider clock) : IDisposable
{
    // It names sessions and patients: nobody else on the machine reads it.
    private static readonly FileStreamOptions Adding = OperatingSystem.IsWindows()
        ? new() { Mode = FileMode.Append, Access = FileAccess.Write, Share = FileShare.Read }
        : new() { Mode = FileMode.Append, Access = FileAccess.Write, Share = FileShare.Read, UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite };

    private readonly SemaphoreSlim one = new(1, 1);

    /// <summary>Writes an act down.</summary>
    /// <exception cref="IOException">It cannot be written down.</exception>
    public async Task WriteAsync(AuditedAct act, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(act);
        var now = clock.GetUtcNow();
        var line = FhirJsonSerializer.Default.SerializeToBytes(AuditRow.Of(act, now));
        await one.WaitAsync(cancellation);
        try
        {
            Directory.CreateDirectory(directory);
            // A file of its own for each process: several may share the directory.
            var name = string.Create(CultureInfo.InvariantCulture, $"AuditEvent-{now:yyyy-MM-dd}-{Environment.ProcessId}.ndjson");
            await using var file = new FileStream(Path.Combine(directory, name), Adding);
            // Not given up half way: half a line would spoil the next.
            await file.WriteAsync(line, CancellationToken.None);
            await file.WriteAsync("\n"u8.ToArray(), CancellationToken.None);
            file.Flush(flushToDisk: true);
        }
        finally
        {
            one.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => one.Dispose();
}
