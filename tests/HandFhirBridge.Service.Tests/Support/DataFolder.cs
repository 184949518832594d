namespace HandFhirBridge.Service.Tests.Support;

/// <summary>A folder of its own for one test or one class, gone afterwards.</summary>
internal sealed class DataFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("hfb-test-").FullName;

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public string Write(string name, string content)
    {
        var path = File(name);
        System.IO.File.WriteAllText(path, content);
        return path;
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
