namespace HandFhirBridge.Outcomes.Gather;

/// <summary>What was gathered, as it lies on disk: a folder a source, in it one NDJSON file a resource type and the state of the gathering.</summary>
/// <param name="folder">The set's folder.</param>
public sealed class GatheredSet(string folder)
{
    private const string Extension = ".ndjson";

    /// <summary>The set's folder.</summary>
    public string Folder => folder;

    /// <summary>Sources there are, in ordinal order.</summary>
    public IReadOnlyList<string> Sources() => Directory.Exists(folder)
        ? [.. Directory.GetDirectories(folder).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal)]
        : [];

    /// <summary>File of a source's resources of one type; it need not exist.</summary>
    /// <param name="source">Name of the source.</param>
    /// <param name="type">Resource type.</param>
    public string File(string source, string type) => Path.Combine(folder, source, type + Extension);

    /// <summary>What changes whenever a file of the set does: names, sizes and times of all of them.</summary>
    public string Fingerprint() => string.Join('\n', Sources().SelectMany(source => Directory.GetFiles(Path.Combine(folder, source), "*" + Extension))
        .Order(StringComparer.Ordinal).Select(path => new FileInfo(path))
        .Select(file => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{file.Directory!.Name}/{file.Name} {file.Length} {file.LastWriteTimeUtc.Ticks}")));
}
