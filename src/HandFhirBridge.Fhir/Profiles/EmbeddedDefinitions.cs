using System.Reflection;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>The files embedded in this assembly, by name.</summary>
internal static class EmbeddedDefinitions
{
    private const string PackagePrefix = "package/";
    private const string CoreName = "r4-core.zip";
    private const string ShapesName = "clean-shapes.bin";

    private static Assembly Here => typeof(EmbeddedDefinitions).Assembly;

    internal static string[] PackagePaths() =>
    [
        .. Here.GetManifestResourceNames()
            .Where(name => name.StartsWith(PackagePrefix, StringComparison.Ordinal))
            .Select(name => name[PackagePrefix.Length..].Replace('\\', '/'))
            .Order(StringComparer.Ordinal),
    ];

    internal static byte[] ReadPackageFile(string path) => Read(PackagePrefix + path);

    /// <summary>Shapes of resources found clean: see <c>Validation/Remembered</c>.</summary>
    internal static byte[] ReadShapes() => Read(ShapesName);

    internal static Stream OpenCore() => Open(CoreName);

    private static byte[] Read(string name)
    {
        using var stream = Open(name);
        var content = new byte[stream.Length];
        stream.ReadExactly(content);
        return content;
    }

    private static Stream Open(string name) =>
        Here.GetManifestResourceStream(name) ?? throw new FileNotFoundException($"'{name}' is not embedded in {Here.GetName().Name}.", name);
}
