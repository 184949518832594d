using HandFhirBridge.Outcomes.Deidentification;

namespace HandFhirBridge.Outcomes.Tests.Deidentification;

/// <summary>A key file in a folder of its own, and options made with it.</summary>
internal sealed class Keys : IDisposable
{
    /// <summary>The bytes 0 to 31.</summary>
    public const string Counting = "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f";

    private readonly string folder = Directory.CreateTempSubdirectory("hfb-key-").FullName;

    public string Path => System.IO.Path.Combine(folder, "project.key");

    public ProjectKey Holding(string text)
    {
        File.WriteAllText(Path, text);
        return ProjectKey.Read(Path);
    }

    public DeidentificationOptions Options(DateRule dates = DateRule.Year) => new(Holding(Counting), new(2026, 11, 26)) { Dates = dates };

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
