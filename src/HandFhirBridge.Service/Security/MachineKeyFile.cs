using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Security;

/// <summary>The file machine keys are kept in.</summary>
/// <param name="path">Path of the file; it need not exist to be added to.</param>
public sealed class MachineKeyFile(string path)
{
    /// <summary>The keys, read anew at each call, so that a removed key stops working at once.</summary>
    /// <exception cref="InvalidDataException">The file is not a list of keys.</exception>
    public ImmutableArray<MachineKey> Read()
    {
        if (!File.Exists(path))
        {
            return [];
        }

        try
        {
            using var file = File.OpenRead(path);
            return JsonSerializer.Deserialize<ImmutableArray<MachineKey>>(file, JsonText.Compact);
        }
        catch (JsonException broken)
        {
            throw new InvalidDataException($"The key file {path} is not readable: {broken.Message} Restore it, or make the keys anew with: keys add.", broken);
        }
    }

    /// <summary>Adds a key and gives it back; the only time it can be seen.</summary>
    /// <exception cref="InvalidDataException">The name is taken, or the file is not readable.</exception>
    public string Add(string name, ImmutableArray<string> scopes)
    {
        var held = Read();
        if (held.Any(k => k.Name == name))
        {
            throw new InvalidDataException($"The key file {path} already holds a key named {name}. Remove it first, or take another name.");
        }

        var (key, entry) = MachineKey.Create(name, scopes);
        var written = path + ".new";
        File.WriteAllText(written, JsonSerializer.Serialize(held.Add(entry), JsonText.Indented));
        File.Move(written, path, overwrite: true);
        return key;
    }
}
