using System.Collections.Immutable;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>The instruments that can be scored.</summary>
public sealed class InstrumentLibrary
{
    /// <summary>A library of <paramref name="all"/>.</summary>
    /// <exception cref="InvalidOperationException">A definition contradicts itself.</exception>
    public InstrumentLibrary(ImmutableArray<Instrument> all)
    {
        var faults = all.SelectMany(InstrumentFaults.Find)
            .Concat(all.GroupBy(i => (i.Id, i.Version)).Where(g => g.Count() > 1).Select(g => $"{g.Key.Id} {g.Key.Version} is defined twice."))
            .ToList();
        All = faults.Count == 0 ? all : throw new InvalidOperationException(string.Join(' ', faults));
    }

    /// <summary>The definitions that come with the product.</summary>
    public static InstrumentLibrary Embedded { get; } = new(EmbeddedData.ReadAll("Instruments", EmbeddedDataContext.Default.Instrument));

    /// <summary>Every definition.</summary>
    public ImmutableArray<Instrument> All { get; }

    /// <summary>The definition with this id and version, or null.</summary>
    public Instrument? Find(string id, string version) => All.FirstOrDefault(i => i.Id == id && i.Version == version);
}
