using System.Text;
using HandFhirBridge.Record.Http;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;
using Task = System.Threading.Tasks.Task;

namespace HandFhirBridge.Record.Export;

/// <summary>Writes the files of an export: a resource a line, in the very characters it is stored in, a file a type.</summary>
/// <param name="folder">Folder of the export; it exists.</param>
/// <param name="population">What is written.</param>
/// <param name="written">Is told of each resource.</param>
internal sealed class ExportWriter(string folder, ExportPopulation population, Action written)
{
    private const int DeletionsInABundle = 1000;
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    // Patients' data: nobody else on the machine reads it.
    private static readonly FileStreamOptions Private = OperatingSystem.IsWindows()
        ? new() { Mode = FileMode.CreateNew, Access = FileAccess.Write }
        : new() { Mode = FileMode.CreateNew, Access = FileAccess.Write, UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite };

    private readonly List<ExportFile> files = [];

    /// <returns>The files, none of them empty.</returns>
    public async Task<IReadOnlyList<ExportFile>> WriteAsync(CancellationToken cancellation)
    {
        await WriteResourcesAsync(cancellation);
        await WriteAsync("deleted", "Bundle", population.Deleted().Chunk(DeletionsInABundle).Select(Deletions), cancellation);
        await WriteAsync("error", "OperationOutcome", population.Notes.Select(Outcome), cancellation);
        return files;
    }

    private async Task WriteResourcesAsync(CancellationToken cancellation)
    {
        using var rows = population.Resources();
        var more = rows.Read();
        while (more)
        {
            var type = rows.GetString(0);
            await WriteAsync("output", type, OfType(), cancellation);

            IEnumerable<string> OfType()
            {
                while (more && rows.GetString(0) == type)
                {
                    yield return rows.GetString(1);
                    written();
                    more = rows.Read();
                }
            }
        }
    }

    private async Task WriteAsync(string kind, string type, IEnumerable<string> lines, CancellationToken cancellation)
    {
        StreamWriter? file = null;
        var (name, count) = ($"{files.Count + 1}.{type}.ndjson", 0L);
        try
        {
            foreach (var line in lines)
            {
                cancellation.ThrowIfCancellationRequested();
                file ??= new StreamWriter(Path.Combine(folder, name), Utf8, Private) { NewLine = "\n" };
                await file.WriteLineAsync(line);
                count++;
            }
        }
        finally
        {
            await (file?.DisposeAsync() ?? ValueTask.CompletedTask);
        }

        if (count > 0)
        {
            files.Add(new(kind, type, name, count));
        }
    }

    private static string Deletions(string[] references) => FhirJsonSerializer.Default.SerializeToString(new Bundle
    {
        Type = Bundle.BundleType.Transaction,
        Entry = [.. references.Select(r => new Bundle.EntryComponent { Request = new() { Method = Bundle.HTTPVerb.DELETE, Url = r } })],
    });

    private static string Outcome(string note) => FhirJsonSerializer.Default.SerializeToString(new OperationOutcome
    {
        Issue = [RecordRefusal.Issue(OperationOutcome.IssueSeverity.Warning, OperationOutcome.IssueType.Incomplete, note)],
    });
}
