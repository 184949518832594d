using System.Text.Json;

namespace HandFhirBridge.Outcomes.Gather.State;

/// <summary>Folder of a source: its merged files, the incoming ones of a gathering under way, and the state.</summary>
/// <param name="set">The gathered set.</param>
/// <param name="source">The source.</param>
internal sealed class SourceFolder(GatheredSet set, GatherSource source)
{
    private static readonly JsonSerializerOptions Form = new() { WriteIndented = true, PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    private string Folder => Path.Combine(set.Folder, source.Name);

    private string StatePath => Path.Combine(Folder, "state.json");

    private string IncomingFolder => Path.Combine(Folder, "incoming");

    public string Merged(string type) => set.File(source.Name, type);

    public string Incoming(string type) => Path.Combine(IncomingFolder, type + ".ndjson");

    public SourceState Load()
    {
        Directory.CreateDirectory(IncomingFolder);
        if (!File.Exists(StatePath))
        {
            return New();
        }

        try
        {
            var state = JsonSerializer.Deserialize<SourceState>(File.ReadAllBytes(StatePath), Form) ?? throw new JsonException("null");
            return state.Server == source.Identity ? state : New();
        }
        catch (JsonException broken)
        {
            throw new GatherException(GatherProblems.StateUnreadable.At("", $"The state of {source.Name} in {StatePath} cannot be read."), broken);
        }
    }

    public SourceState New() => new() { Server = source.Identity };

    /// <summary>Keeps the state, whole or not at all: after a failure at any instant there is the old one or the new one.</summary>
    public void Save(SourceState state)
    {
        Directory.CreateDirectory(IncomingFolder);
        var aside = StatePath + ".new";
        using (var file = new FileStream(aside, FileMode.Create, FileAccess.Write))
        {
            JsonSerializer.Serialize(file, state, Form);
            file.Flush(flushToDisk: true);
        }

        File.Move(aside, StatePath, overwrite: true);
    }

    /// <summary>Adds lines to an incoming file and says how long it is now. What lies behind the length last accounted for is dropped first.</summary>
    public long Append(string type, long length, Action<Stream> write)
    {
        using var file = new FileStream(Incoming(type), FileMode.OpenOrCreate, FileAccess.Write);
        file.SetLength(length);
        file.Seek(0, SeekOrigin.End);
        write(file);
        file.Flush(flushToDisk: true);
        return file.Length;
    }

    public void ClearIncoming()
    {
        if (Directory.Exists(IncomingFolder))
        {
            Directory.Delete(IncomingFolder, recursive: true);
        }

        Directory.CreateDirectory(IncomingFolder);
    }
}
