using System.Collections.Immutable;
using System.Text.Json;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Service.Output;

namespace HandFhirBridge.Service.Norms;

/// <summary>Norm tables a site entered: <c>SETID.first.json</c> and <c>SETID.second.json</c> in one folder.</summary>
/// <param name="path">The folder; it need not exist.</param>
public sealed class NormDirectory(string path)
{
    private static readonly string[] Places = ["first", "second"];

    /// <summary>Ids of the sets of which at least one entry stands here.</summary>
    public ImmutableArray<string> SetIds => Directory.Exists(path)
        ? [.. Directory.GetFiles(path, "*.json").Select(f => Path.GetFileName(f).Split('.')[0]).Distinct().Order(StringComparer.Ordinal)]
        : [];

    /// <summary>The entries of a set, none to two.</summary>
    public ImmutableArray<NormEntry> Entries(string setId) =>
        [.. Places.Select(p => FileOf(setId, p)).Where(File.Exists).Select(Read)];

    /// <summary>Keeps an entry: as the first, as the second, or in place of the same person's earlier one.</summary>
    public void Keep(NormEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        Directory.CreateDirectory(path);
        var place = Places.FirstOrDefault(p => File.Exists(FileOf(entry.SetId, p)) && Read(FileOf(entry.SetId, p)).EnteredBy == entry.EnteredBy)
            ?? Places.FirstOrDefault(p => !File.Exists(FileOf(entry.SetId, p)))
            ?? throw new InvalidDataException(
                $"Two others have entered {entry.SetId} already. Let one of them correct an entry, or choose another set id.");
        var file = FileOf(entry.SetId, place);
        File.WriteAllText(file + ".new", JsonSerializer.Serialize(entry, JsonText.Indented));
        File.Move(file + ".new", file, overwrite: true);
    }

    /// <summary>What comparing both entries of a set gives; null if there are not two.</summary>
    public Outcome<NormSet>? Compare(string setId, InstrumentLibrary instruments)
    {
        var entries = Entries(setId);
        return entries.Length == 2 && instruments.All.FirstOrDefault(i => i.Id == entries[0].Instrument) is { } instrument
            ? NormEntryComparison.Compare(entries[0], entries[1], instrument)
            : null;
    }

    /// <summary>The sets that both entries agree on.</summary>
    public ImmutableArray<NormSet> Usable(InstrumentLibrary instruments) =>
        [.. SetIds.Select(id => Compare(id, instruments)?.Value).OfType<NormSet>()];

    private string FileOf(string setId, string place) => Path.Combine(path, $"{setId}.{place}.json");

    private static NormEntry Read(string file)
    {
        using var stream = File.OpenRead(file);
        return JsonSerializer.Deserialize<NormEntry>(stream, JsonText.Compact)
            ?? throw new InvalidDataException($"{file} is empty.");
    }
}
