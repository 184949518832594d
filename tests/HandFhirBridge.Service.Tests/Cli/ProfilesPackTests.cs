using System.Formats.Tar;
using System.IO.Compression;
using System.Text.Json;
using System.Text.RegularExpressions;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Cli;

/// <summary>
/// profiles pack writes a package as the FHIR package specification describes it
/// (https://confluence.hl7.org/display/FHIR/NPM+Package+Specification, and https://hl7.org/fhir/packages.html).
/// </summary>
public sealed partial class ProfilesPackTests(ProfilesPackTests.Package package) : IClassFixture<ProfilesPackTests.Package>
{
    private static readonly string[] Indexed = ["resourceType", "id", "url", "version", "kind", "type"];

    [GeneratedRegex("^[a-z][a-z0-9-]*(\\.[a-z0-9-]+)+$")]
    private static partial Regex Name { get; }

    [GeneratedRegex("^[0-9]+\\.[0-9]+\\.[0-9]+(-[A-Za-z0-9.-]+)?$")]
    private static partial Regex SemanticVersion { get; }

    [Fact]
    public void Pack_Archive_HoldsOneFolderNamedPackageWithManifestAndIndex()
    {
        package.Run.ExitCode.ShouldBe(0, package.Run.Output + package.Run.Error);
        package.Files.Keys.ShouldAllBe(name => name.StartsWith("package/", StringComparison.Ordinal));
        package.Files.Keys.ShouldContain("package/package.json");
        package.Files.Keys.ShouldContain("package/.index.json");
    }

    [Fact]
    public void Pack_Manifest_HasWhatThePackageSpecificationAsks()
    {
        var manifest = package.Json("package/package.json");

        var name = manifest.GetProperty("name").GetString();
        name.ShouldNotBeNull().ShouldMatch(Name.ToString());
        manifest.GetProperty("version").GetString().ShouldNotBeNull().ShouldMatch(SemanticVersion.ToString());
        manifest.GetProperty("fhirVersions").EnumerateArray().Select(v => v.GetString()).ShouldBe(["4.0.1"]);
        manifest.GetProperty("dependencies").GetProperty("hl7.fhir.r4.core").GetString().ShouldBe("4.0.1");
        foreach (var required in new[] { "description", "author" })
        {
            manifest.GetProperty(required).GetString().ShouldNotBeNullOrWhiteSpace();
        }

        Uri.IsWellFormedUriString(manifest.GetProperty("canonical").GetString(), UriKind.Absolute).ShouldBeTrue();
    }

    [Fact]
    public void Pack_Index_ListsEveryResourceOfTheFolderAsItStandsInItsFile()
    {
        var index = package.Json("package/.index.json");

        index.GetProperty("index-version").GetInt32().ShouldBeOneOf(1, 2);
        var listed = index.GetProperty("files").EnumerateArray().ToList();
        listed.Select(f => "package/" + f.GetProperty("filename").GetString()).Order(StringComparer.Ordinal)
            .ShouldBe(package.Resources.Order(StringComparer.Ordinal));
        foreach (var entry in listed)
        {
            var resource = package.Json("package/" + entry.GetProperty("filename").GetString());
            foreach (var property in Indexed.Where(p => resource.TryGetProperty(p, out var value) && value.ValueKind == JsonValueKind.String))
            {
                entry.GetProperty(property).GetString().ShouldBe(resource.GetProperty(property).GetString(), $"{property} of {entry}");
            }
        }
    }

    [Fact]
    public void Pack_Definitions_AreR4WithSnapshotsUnderTheCanonicalBase()
    {
        var canonical = package.Json("package/package.json").GetProperty("canonical").GetString()!;
        var definitions = package.Resources.Select(package.Json)
            .Where(r => r.GetProperty("resourceType").GetString() == "StructureDefinition").ToList();

        definitions.Count.ShouldBeGreaterThan(10);
        foreach (var definition in definitions)
        {
            definition.GetProperty("url").GetString().ShouldStartWith(canonical + "/StructureDefinition/hfb-");
            definition.GetProperty("fhirVersion").GetString().ShouldBe("4.0.1");
            definition.GetProperty("snapshot").GetProperty("element").GetArrayLength().ShouldBeGreaterThan(0);
        }
    }

    [Fact]
    public async Task Pack_Twice_GivesTheSameBytes()
    {
        using var folder = new DataFolder();

        var run = await CommandRun.StartAsync(folder.Path, "profiles", "pack", "--output", "again.tgz");

        run.ExitCode.ShouldBe(0, run.Error);
        (await File.ReadAllBytesAsync(folder.File("again.tgz"), TestContext.Current.CancellationToken)).ShouldBe(package.Bytes);
    }

    [Fact]
    public async Task Pack_FolderThatDoesNotExist_IsEnvironment()
    {
        using var folder = new DataFolder();

        var run = await CommandRun.StartAsync(folder.Path, "profiles", "pack", "--output", "absent/pack.tgz");

        run.ExitCode.ShouldBe(3, run.Output + run.Error);
        run.Error.ShouldContain("absent");
    }

    /// <summary>The package, written once and unpacked in memory.</summary>
    public sealed class Package : IAsyncLifetime
    {
        public Dictionary<string, byte[]> Files { get; } = [];

        public byte[] Bytes { get; private set; } = [];

        internal CommandRun Run { get; private set; } = null!;

        /// <summary>Files directly in the folder that are resources.</summary>
        public IEnumerable<string> Resources => Files.Keys.Where(name =>
            name.Count(c => c == '/') == 1 && name.EndsWith(".json", StringComparison.Ordinal)
            && Path.GetFileName(name) is not ("package.json" or ".index.json"));

        public async ValueTask InitializeAsync()
        {
            using var folder = new DataFolder();
            Run = await CommandRun.StartAsync(folder.Path, "profiles", "pack", "--output", "pack.tgz");
            Bytes = await File.ReadAllBytesAsync(folder.File("pack.tgz"), TestContext.Current.CancellationToken);
            await using var unzipped = new GZipStream(new MemoryStream(Bytes), CompressionMode.Decompress);
            await using var tar = new TarReader(unzipped);
            while (await tar.GetNextEntryAsync(copyData: true, TestContext.Current.CancellationToken) is { } entry)
            {
                if (entry.EntryType is TarEntryType.RegularFile or TarEntryType.V7RegularFile)
                {
                    using var content = new MemoryStream();
                    await (entry.DataStream ?? Stream.Null).CopyToAsync(content, TestContext.Current.CancellationToken);
                    Files.Add(entry.Name, content.ToArray());
                }
            }
        }

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;

        public JsonElement Json(string name) => JsonDocument.Parse(Files[name]).RootElement;
    }
}
