using System.Text;
using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Service.Intake;

/// <summary>Writes what was refused into a folder, in the form it came in, so that it can be corrected and handed in again: JSON files and NDJSON lines as they were, rows of a table under their header with the problems in a last column. Beside each stands <c>NAME.problems.txt</c>. Nothing is created until something is refused; existing files are never overwritten. The files hold patient data, as what was handed in does.</summary>
/// <param name="folder">Created when needed.</param>
public sealed class RejectsWriter(string folder) : IAsyncDisposable
{
    private string? _source;
    private StreamWriter? _problems;
    private RejectedFile? _file;

    /// <summary>How many sessions were refused so far.</summary>
    public int Count { get; private set; }

    /// <summary>Files written that can be handed in again, in the order of their sources.</summary>
    public IReadOnlyList<string> Files => _files;

    private readonly List<string> _files = [];

    /// <summary>Writes the item if it is refused; one that succeeded is passed over. Items of one source come together, as <see cref="SessionSources"/> gives them.</summary>
    public async Task AddAsync(IntakeItem item, CancellationToken cancel = default)
    {
        if (item.Outcome.Succeeded)
        {
            return;
        }

        Count++;
        if (item.Place.Source != _source)
        {
            await OpenAsync(item);
        }

        if (_file is not null && !(item.Rows is null && item.Document.IsEmpty))
        {
            await _file.WriteAsync(item, cancel);
        }

        foreach (var problem in item.Outcome.Problems)
        {
            await _problems!.WriteLineAsync(problem.ToString().AsMemory(), cancel);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_file is not null)
        {
            await _file.DisposeAsync();
        }

        if (_problems is not null)
        {
            await _problems.DisposeAsync();
        }

        (_file, _problems) = (null, null);
    }

    private async Task OpenAsync(IntakeItem item)
    {
        await DisposeAsync();
        _source = item.Place.Source;
        Directory.CreateDirectory(folder);
        var path = FreeName(Path.GetFileName(item.Place.Source), item.Format);
        _problems = new StreamWriter(new FileStream(path + ".problems.txt", FileMode.CreateNew), new UTF8Encoding(false));
        _file = new RejectedFile(path, () => _files.Add(path));
    }

    private string FreeName(string name, IntakeFormat format)
    {
        var stem = Path.GetFileNameWithoutExtension(name);
        var ending = SourceFiles.FormatOf(name) is null ? $".{format.ToString().ToLowerInvariant()}" : Path.GetExtension(name);
        return Enumerable.Range(1, int.MaxValue).Select(n => Path.Combine(folder, n == 1 ? stem + ending : $"{stem}-{n}{ending}"))
            .First(p => !File.Exists(p) && !File.Exists(p + ".problems.txt"));
    }
}
