using System.Text.Json;
using System.Text.Json.Serialization;

namespace HandFhirBridge.Delivery.Targets;

/// <summary>Keeps what is known of each target in a file of its own, so that a restart does not forget it.</summary>
/// <param name="directory">Folder of the files; made when the first is written.</param>
public sealed class TargetKnowledgeFile(string directory)
{
    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    /// <summary>What is known; null if nothing is, if it is of another address, or if the file cannot be read: it is then found out anew.</summary>
    /// <param name="name">Name of the target.</param>
    /// <param name="baseUrl">Its address; null takes what is known of any.</param>
    public TargetKnowledge? Load(string name, Uri? baseUrl)
    {
        try
        {
            var known = JsonSerializer.Deserialize<TargetKnowledge>(File.ReadAllBytes(PathOf(name)), Format);
            return baseUrl is null || known?.BaseUrl == baseUrl ? known : null;
        }
        catch (Exception unusable) when (unusable is IOException or UnauthorizedAccessException or JsonException or NotSupportedException)
        {
            return null;
        }
    }

    /// <summary>Writes it, whole or not at all. A disk that takes no file costs the memory of the next start and nothing else.</summary>
    /// <param name="name">Name of the target.</param>
    /// <param name="known">What is known.</param>
    public void Save(string name, TargetKnowledge known)
    {
        try
        {
            Directory.CreateDirectory(directory);
            var path = PathOf(name);
            File.WriteAllBytes(path + ".new", JsonSerializer.SerializeToUtf8Bytes(known, Format));
            File.Move(path + ".new", path, overwrite: true);
        }
        catch (Exception unusable) when (unusable is IOException or UnauthorizedAccessException)
        {
            // Found out anew at the next start.
        }
    }

    private string PathOf(string name) => Path.Combine(directory, Uri.EscapeDataString(name) + ".json");
}
