using System.Net;
using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Record.Export;

/// <summary>An export under way, done or failed.</summary>
/// <param name="id">Unguessable name.</param>
/// <param name="order">What was asked for.</param>
/// <param name="folder">Where its files lie.</param>
/// <param name="moment">The instant whose state it gives.</param>
/// <param name="total">Resources to write.</param>
internal sealed class ExportJob(string id, ExportOrder order, string folder, DateTimeOffset moment, long total) : IDisposable
{
    private readonly CancellationTokenSource cancelling = new();
    private volatile ExportEnd? end;
    private long written;

    public string Id => id;

    public ExportOrder Order => order;

    public string Folder => folder;

    /// <summary>The server's instant of the export: everything dated up to it is in, nothing later.</summary>
    public DateTimeOffset TransactionTime => moment;

    /// <summary>How it ended; null while it is under way.</summary>
    public ExportEnd? End => end;

    public CancellationToken Cancelled => cancelling.Token;

    /// <summary>The work; ends without an exception, whatever happens.</summary>
    public System.Threading.Tasks.Task Work { get; set; } = System.Threading.Tasks.Task.CompletedTask;

    /// <summary>For X-Progress: less than 100 characters.</summary>
    public string Progress => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Interlocked.Read(ref written)} of {total} resources written");

    public void Count() => Interlocked.Increment(ref written);

    public void Done(IReadOnlyList<ExportFile> files, DateTimeOffset expires) => end = new(files, null, expires);

    public void Fail(DateTimeOffset expires) => end = new(
        [],
        new(HttpStatusCode.InternalServerError, OperationOutcome.IssueType.Exception, "The export failed; the server's log says why. Begin it again."),
        expires);

    public void Cancel() => cancelling.Cancel();

    public void Dispose() => cancelling.Dispose();
}
