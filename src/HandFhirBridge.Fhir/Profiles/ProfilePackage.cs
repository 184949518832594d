using System.Text.Json;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>The project's own FHIR package: profiles, extensions, value sets, code systems, questionnaires, protocol and examples, embedded in this assembly.</summary>
public static class ProfilePackage
{
    private const string Manifest = "package.json";

    /// <summary>Paths of all files, in ordinal order.</summary>
    public static IReadOnlyList<string> Paths { get; } = EmbeddedDefinitions.PackagePaths();

    /// <summary>Package id and version as the package's own <c>package.json</c> states them, such as <c>handfhirbridge.r4#0.1.0</c>.</summary>
    public static string Identity { get; } = ReadIdentity();

    /// <summary>Every file with its content, in ordinal order of the paths.</summary>
    public static IEnumerable<PackageFile> Files() => Paths.Select(path => new PackageFile(path, EmbeddedDefinitions.ReadPackageFile(path)));

    /// <summary>Content of one file.</summary>
    /// <param name="path">One of <see cref="Paths"/>.</param>
    /// <exception cref="FileNotFoundException">There is no such file.</exception>
    public static ReadOnlyMemory<byte> Read(string path) => EmbeddedDefinitions.ReadPackageFile(path);

    /// <summary>Writes the FHIR package: a gzipped tar with a folder <c>package</c>, as package loaders expect it. The same package gives the same bytes on every run.</summary>
    /// <param name="destination">Where the <c>.tgz</c> goes; left open.</param>
    public static void Pack(Stream destination)
    {
        ArgumentNullException.ThrowIfNull(destination);
        PackageArchive.Write(destination, Files());
    }

    private static string ReadIdentity()
    {
        using var manifest = JsonDocument.Parse(EmbeddedDefinitions.ReadPackageFile(Manifest));
        return $"{manifest.RootElement.GetProperty("name").GetString()}#{manifest.RootElement.GetProperty("version").GetString()}";
    }
}
