using System.Runtime.CompilerServices;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>Sessions from files, folders and standard input: JSON documents, NDJSON, and tables with one row a trial. One bad session never stops the others; memory does not grow with the size of the input, apart from 16 bytes for each session of a table.</summary>
/// <param name="reader">Reads each document.</param>
public sealed class SessionSources(SessionReader reader)
{
    private readonly JsonSource _json = new(reader);
    private readonly NdjsonSource _ndjson = new(reader);
    private readonly CsvSource _csv = new(reader);

    /// <summary>Reads everything named, in order, as it is asked for.</summary>
    /// <param name="paths">Files (.json, .ndjson, .jsonl, .csv, .tsv), folders (with subfolders, sorted by path), <c>-</c> for standard input.</param>
    /// <param name="stdin">Standard input; read only for <c>-</c>, and left open. Its form is told from its first line.</param>
    /// <param name="cancel">Stops between two reads.</param>
    public async IAsyncEnumerable<IntakeItem> ReadAsync(
        IReadOnlyCollection<string> paths, Stream stdin, [EnumeratorCancellation] CancellationToken cancel = default)
    {
        foreach (var file in SourceFiles.Of(paths))
        {
            await foreach (var item in ReadFileAsync(file, stdin, cancel))
            {
                yield return item;
            }
        }
    }

    private async IAsyncEnumerable<IntakeItem> ReadFileAsync(SourceFile file, Stream stdin, [EnumeratorCancellation] CancellationToken cancel)
    {
        var format = SourceFiles.FormatOf(file.Path);
        var (stream, problem) = file.Problem is null ? Open(file.Path, stdin) : (null, file.Problem);
        if (stream is null)
        {
            yield return IntakeItem.Refused(new SourcePlace(file.Path), format ?? IntakeFormat.Json, problem!);
            yield break;
        }

        await using var opened = file.Path == SourceFile.StandardInput ? null : stream;
        var items = file.Path == SourceFile.StandardInput ? ReadStandardInputAsync(stream, cancel) : ReadAsync(format!.Value, file.Path, stream, cancel);
        await using var each = items.GetAsyncEnumerator(cancel);
        while (true)
        {
            var (item, failed) = await NextAsync(each, file.Path);
            if (failed is not null)
            {
                yield return IntakeItem.Refused(new SourcePlace(file.Path), format ?? IntakeFormat.Json, failed);
            }

            if (item is null)
            {
                yield break;
            }

            yield return item;
        }
    }

    // A disk or network drive can fail in the middle of a file; what was read before stands.
    private static async Task<(IntakeItem? Item, Problem? Failed)> NextAsync(IAsyncEnumerator<IntakeItem> each, string path)
    {
        try
        {
            return (await each.MoveNextAsync() ? each.Current : null, null);
        }
        catch (IOException)
        {
            return (null, SourceFiles.NotReadable(path));
        }
    }

    private static (Stream? Stream, Problem? Problem) Open(string path, Stream stdin)
    {
        if (path == SourceFile.StandardInput)
        {
            return (stdin, null);
        }

        try
        {
            return (new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, 64 * 1024, useAsync: true), null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return (null, SourceFiles.NotReadable(path));
        }
    }

    private async IAsyncEnumerable<IntakeItem> ReadStandardInputAsync(Stream stdin, [EnumeratorCancellation] CancellationToken cancel)
    {
        var (format, replayed) = await StandardInput.RecognizeAsync(stdin, cancel);
        await foreach (var item in ReadAsync(format, StandardInput.Name, replayed, cancel))
        {
            yield return item;
        }
    }

    private IAsyncEnumerable<IntakeItem> ReadAsync(IntakeFormat format, string source, Stream stream, CancellationToken cancel) => format switch
    {
        IntakeFormat.Json => OneAsync(_json.ReadAsync(source, stream, cancel)),
        IntakeFormat.Ndjson => _ndjson.ReadAsync(source, stream, cancel),
        _ => _csv.ReadAsync(source, stream, cancel),
    };

    private static async IAsyncEnumerable<IntakeItem> OneAsync(Task<IntakeItem> item)
    {
        yield return await item;
    }
}
