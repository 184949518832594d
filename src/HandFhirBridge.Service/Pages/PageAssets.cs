using System.Collections.Frozen;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace HandFhirBridge.Service.Pages;

/// <summary>The files of a page, as built into this assembly.</summary>
internal sealed class PageAssets
{
    /// <summary>Tells the service worker what to keep. Made here, so that it cannot fall behind the files.</summary>
    private const string ListPath = "assets.js";

    private readonly FrozenDictionary<string, PageAsset> assets;

    private PageAssets(IEnumerable<PageAsset> files) => assets = files.ToFrozenDictionary(f => f.Path, StringComparer.Ordinal);

    /// <summary>Of the page used at the bedside, with the list that lets it work without a network.</summary>
    public static PageAssets Table { get; } = Load("table/", listed: true);

    /// <summary>Of the page for whoever looks after the ledger; it is of no use without the service.</summary>
    public static PageAssets Ledger { get; } = Load("ledger/", listed: false);

    /// <summary>Of the page for a patient's course.</summary>
    public static PageAssets Chart { get; } = Load("chart/", listed: false);

    /// <summary>Of the page of one report, which is made for each request.</summary>
    public static PageAssets Report { get; } = Load("report/", listed: false);

    public PageAsset? Find(string path) => assets.GetValueOrDefault(path.Length == 0 ? "index.html" : path);

    private static PageAssets Load(string prefix, bool listed)
    {
        var assembly = typeof(PageAssets).Assembly;
        var files = assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(prefix, StringComparison.Ordinal))
            .Select(name => (Path: name[prefix.Length..].Replace('\\', '/'), Name: name))
            .OrderBy(file => file.Path, StringComparer.Ordinal)
            .Select(file => new PageAsset(file.Path, Read(assembly.GetManifestResourceStream(file.Name)!)))
            .ToList();
        return new(listed ? files.Append(List(files)) : files);
    }

    private static byte[] Read(Stream stream)
    {
        using var source = stream;
        using var target = new MemoryStream();
        source.CopyTo(target);
        return target.ToArray();
    }

    private static PageAsset List(List<PageAsset> files)
    {
        var version = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Concat(files.Select(f => f.Path + f.Tag)))))[..16];
        // The worker itself is kept by the browser, not in its own cache.
        var paths = files.Select(f => f.Path == "index.html" ? "./" : f.Path).Where(p => p != "sw.js");
        return new(ListPath, Encoding.UTF8.GetBytes(
            $"self.tableAssets = {{ version: {JsonSerializer.Serialize(version)}, files: {JsonSerializer.Serialize(paths)} }};\n"));
    }
}
