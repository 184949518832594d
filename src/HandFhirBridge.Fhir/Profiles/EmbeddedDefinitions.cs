using System.Reflection;

namespace HandFhirBridge.Fhir.Profiles;

/// <summary>The files embedded in this assembly, by name.</summary>
internal static class EmbeddedDefinitions
{
    private const string PackagePrefix = "package/";
    private const string CoreName = "r4-core.zip";

    private static Assembly Here => typeof(EmbeddedDefinitions).Assembly;

    internal static string[] PackagePaths() =>
    [
        .. Here.GetManifestResourceNames()
            .Where(name => name.StartsWith(PackagePrefix, StringComparison.Ordinal))
            .Select(name => name[PackagePrefix.Length..].Replace('\\', '/'))
            .Order(StringComparer.Ordinal),
    ];

    internal static byte[] ReadPackageFile(string path)
    {
        using var stream = Open(PackagePrefix + path);
        var content = new byte[stream.Length];
        stream.ReadExactly(content);
        return content;
    }

    internal static Stream OpenCore() => Open(CoreName);

    private static Stream Open(string name) =>
        Here.GetManifestResourceStream(name) ?? throw new FileNotFoundException($"'{name}' is not embedded in {Here.GetName().Name}.", name);
}
