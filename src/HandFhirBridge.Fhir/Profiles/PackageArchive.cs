using System.Formats.Tar;
using System.IO.Compression;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>Writes files as a FHIR package archive.</summary>
internal static class PackageArchive
{
    // npm stamps every packed file with this instant, so that equal content gives equal archives.
    private static readonly DateTimeOffset FileTime = new(1985, 10, 26, 8, 15, 0, TimeSpan.Zero);

    internal static void Write(Stream destination, IEnumerable<PackageFile> files)
    {
        using var gzip = new GZipStream(destination, CompressionLevel.Optimal, leaveOpen: true);
        using var tar = new TarWriter(gzip, TarEntryFormat.Ustar, leaveOpen: true);
        foreach (var file in files)
        {
            tar.WriteEntry(Entry(file));
        }
    }

    private static UstarTarEntry Entry(PackageFile file) => new(TarEntryType.RegularFile, "package/" + file.Path)
    {
        ModificationTime = FileTime,
        Mode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.OtherRead,
        DataStream = new MemoryStream(file.Content.ToArray(), writable: false),
    };
}
