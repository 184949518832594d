using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Service.Hosting;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Cli;

/// <summary>The folder of an export: a file a view, written aside and put in place at once, so that nobody takes half an export for a whole one.</summary>
/// <param name="set">What was gathered.</param>
/// <param name="target">The folder; it must not exist.</param>
/// <param name="format">Form of the files.</param>
internal sealed class ExportFolder(GatheredSet set, string target, ExportFormat format)
{
    private readonly List<Problem> leftOut = [];
    private readonly SortedDictionary<string, long> rows = new(StringComparer.Ordinal);

    /// <summary>What is wrong with resources that gave no row: they stop no others.</summary>
    public IReadOnlyList<Problem> LeftOut => leftOut;

    /// <summary>Rows written, by view.</summary>
    public ImmutableSortedDictionary<string, long> Rows => rows.ToImmutableSortedDictionary(StringComparer.Ordinal);

    /// <summary>Writes it; whatever fails leaves no folder behind.</summary>
    /// <param name="form">Columns that are given of a view, and what becomes of a row.</param>
    /// <param name="beside">Name and content of a file beside the views; asked for when they are written and before they are put in place.</param>
    /// <param name="cancellation">Gives up.</param>
    public async Task WriteAsync(
        Func<ViewRows, (ImmutableArray<string> Columns, Func<object?[], object?[]> Row)> form, Func<Task<(string Name, object Content)>> beside, CancellationToken cancellation)
    {
        if (Path.Exists(target))
        {
            throw new CommandFailedException($"{target} exists. Name another folder, or remove it first: what was exported before would lie among it.", ExitCode.Usage);
        }

        var aside = Path.TrimEndingDirectorySeparator(target) + ".new";
        Remove(aside);
        try
        {
            Directory.CreateDirectory(aside);
            foreach (var view in StandardViews.All)
            {
                await WriteAsync(new ViewRows(set, view), form, aside, cancellation);
            }

            var (name, content) = await beside();
            await File.WriteAllTextAsync(Path.Combine(aside, name), JsonSerializer.Serialize(content, JsonText.Indented), cancellation);
            Directory.Move(aside, target);
        }
        catch
        {
            Remove(aside);
            throw;
        }
    }

    private async Task WriteAsync(
        ViewRows view, Func<ViewRows, (ImmutableArray<string> Columns, Func<object?[], object?[]> Row)> form, string aside, CancellationToken cancellation)
    {
        var (columns, row) = form(view);
        var given = view.Read(leftOut).Select(cells =>
        {
            cancellation.ThrowIfCancellationRequested();
            return row(cells);
        });
        await using var file = File.CreateText(Path.Combine(aside, $"{view.Name}.{(format == ExportFormat.Csv ? "csv" : "ndjson")}"));
        rows[view.Name] = format == ExportFormat.Csv ? RowText.WriteCsv(columns, given, file) : RowText.WriteNdjson(columns, given, file);
    }

    private static void Remove(string folder)
    {
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
