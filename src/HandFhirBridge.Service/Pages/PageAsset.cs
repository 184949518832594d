using System.IO.Compression;
using System.Security.Cryptography;

namespace HandFhirBridge.Service.Pages;

/// <summary>One file of a page, compressed once.</summary>
internal sealed class PageAsset
{
    private readonly Lazy<byte[]> brotli;
    private readonly Lazy<byte[]> gzip;

    public PageAsset(string path, byte[] bytes)
    {
        Path = path;
        Bytes = bytes;
        Tag = Convert.ToHexStringLower(SHA256.HashData(bytes))[..16];
        brotli = new(() => Compressed(stream => new BrotliStream(stream, CompressionLevel.SmallestSize)));
        gzip = new(() => Compressed(stream => new GZipStream(stream, CompressionLevel.SmallestSize)));
    }

    /// <summary>Path below the page.</summary>
    public string Path { get; }

    public byte[] Bytes { get; }

    /// <summary>Changes whenever the content does.</summary>
    public string Tag { get; }

    public string ContentType => System.IO.Path.GetExtension(Path) switch
    {
        ".html" => "text/html; charset=utf-8",
        ".js" => "text/javascript; charset=utf-8",
        ".css" => "text/css; charset=utf-8",
        ".json" => "application/json",
        ".webmanifest" => "application/manifest+json",
        ".svg" => "image/svg+xml",
        ".png" => "image/png",
        var other => throw new InvalidOperationException($"A page has a file of a kind that is not served: {other}."),
    };

    /// <summary>The content in the best encoding the caller takes; the encoding is null for none.</summary>
    public (byte[] Body, string? Encoding) For(string acceptEncoding)
    {
        // A list of tokens; none of those we ask for is part of another.
        if (acceptEncoding.Contains("br", StringComparison.OrdinalIgnoreCase))
        {
            return (brotli.Value, "br");
        }

        return acceptEncoding.Contains("gzip", StringComparison.OrdinalIgnoreCase) ? (gzip.Value, "gzip") : (Bytes, null);
    }

    private byte[] Compressed(Func<Stream, Stream> compressor)
    {
        using var target = new MemoryStream();
        using (var stream = compressor(target))
        {
            stream.Write(Bytes);
        }

        return target.ToArray();
    }
}
