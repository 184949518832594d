using System.Collections.Frozen;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace HandFhirBridge.Service.Table;

/// <summary>The files of the table page, as built into this assembly.</summary>
internal sealed class TableAssets
{
    /// <summary>Tells the service worker what to keep. Made here, so that it cannot fall behind the files.</summary>
    private const string ListPath = "assets.js";
    private const string ResourcePrefix = "table/";

    private readonly FrozenDictionary<string, TableAsset> assets;

    private TableAssets(IEnumerable<TableAsset> files) => assets = files.ToFrozenDictionary(f => f.Path, StringComparer.Ordinal);

    public static TableAssets Embedded { get; } = Load();

    public TableAsset? Find(string path) => assets.GetValueOrDefault(path.Length == 0 ? "index.html" : path);

    private static TableAssets Load()
    {
        var assembly = typeof(TableAssets).Assembly;
        var files = assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(ResourcePrefix, StringComparison.Ordinal))
            .Select(name => (Path: name[ResourcePrefix.Length..].Replace('\\', '/'), Name: name))
            .OrderBy(file => file.Path, StringComparer.Ordinal)
            .Select(file => new TableAsset(file.Path, Read(assembly.GetManifestResourceStream(file.Name)!)))
            .ToList();
        return new(files.Append(List(files)));
    }

    private static byte[] Read(Stream stream)
    {
        using var source = stream;
        using var target = new MemoryStream();
        source.CopyTo(target);
        return target.ToArray();
    }

    private static TableAsset List(List<TableAsset> files)
    {
        var version = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Concat(files.Select(f => f.Path + f.Tag)))))[..16];
        // The worker itself is kept by the browser, not in its own cache.
        var paths = files.Select(f => f.Path == "index.html" ? "./" : f.Path).Where(p => p != "sw.js");
        return new(ListPath, Encoding.UTF8.GetBytes(
            $"self.tableAssets = {{ version: {JsonSerializer.Serialize(version)}, files: {JsonSerializer.Serialize(paths)} }};\n"));
    }
}
