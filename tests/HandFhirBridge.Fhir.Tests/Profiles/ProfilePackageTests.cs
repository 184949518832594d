using System.Formats.Tar;
using System.IO.Compression;
using System.Text.Json;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Tests.Mapping;

namespace HandFhirBridge.Fhir.Tests.Profiles;

public sealed class ProfilePackageTests
{
    // Layout of FHIR packages: https://hl7.org/fhir/packages.html (folder "package", package.json, .index.json, example/).
    [Fact]
    public void Pack_WholePackage_HasTheLayoutOfFhirPackages()
    {
        var entries = Unpack(Packed());

        entries.Keys.ShouldBe(ProfilePackage.Paths.Select(path => "package/" + path));
        using var manifest = JsonDocument.Parse(entries["package/package.json"]);
        $"{manifest.RootElement.GetProperty("name")}#{manifest.RootElement.GetProperty("version")}".ShouldBe(ProfilePackage.Identity);
        manifest.RootElement.GetProperty("fhirVersions")[0].GetString().ShouldBe(CoreDefinitions.FhirVersion);
        using var index = JsonDocument.Parse(entries["package/.index.json"]);
        var indexed = index.RootElement.GetProperty("files").EnumerateArray().ToList();
        indexed.Count.ShouldBeGreaterThan(50);
        indexed.ShouldAllBe(file => UrlIn(entries["package/" + file.GetProperty("filename").GetString()]) == file.GetProperty("url").GetString());
    }

    [Fact]
    public void Pack_Twice_GivesTheSameBytes() => Packed().ShouldBe(Packed());

    [Fact]
    public void Files_EachFile_IsTheCommittedOne()
    {
        foreach (var file in ProfilePackage.Files())
        {
            file.Content.ToArray().ShouldBe(File.ReadAllBytes(Repository.Package(file.Path)), file.Path);
        }
    }

    [Fact]
    public void Read_UnknownPath_Throws() => Should.Throw<FileNotFoundException>(() => ProfilePackage.Read("StructureDefinition-none.json"));

    private static byte[] Packed()
    {
        using var packed = new MemoryStream();
        ProfilePackage.Pack(packed);
        return packed.ToArray();
    }

    private static Dictionary<string, byte[]> Unpack(byte[] packed)
    {
        using var tar = new TarReader(new GZipStream(new MemoryStream(packed), CompressionMode.Decompress));
        Dictionary<string, byte[]> entries = new(StringComparer.Ordinal);
        while (tar.GetNextEntry() is { } entry)
        {
            using var content = new MemoryStream();
            entry.DataStream!.CopyTo(content);
            entries.Add(entry.Name, content.ToArray());
        }

        return entries;
    }

    private static string? UrlIn(byte[] definition)
    {
        using var json = JsonDocument.Parse(definition);
        return json.RootElement.GetProperty("url").GetString();
    }
}
