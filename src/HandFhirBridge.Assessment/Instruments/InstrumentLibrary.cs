using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>The instruments that can be scored.</summary>
public sealed class InstrumentLibrary
{
    /// <summary>A library of <paramref name="all"/>.</summary>
    /// <exception cref="InvalidOperationException">A definition contradicts itself.</exception>
    public InstrumentLibrary(ImmutableArray<Instrument> all)
    {
        foreach (var fault in all.SelectMany(Faults))
        {
            throw new InvalidOperationException(fault);
        }

        All = all;
    }

    /// <summary>The definitions that come with the product.</summary>
    public static InstrumentLibrary Embedded { get; } = new(EmbeddedData.ReadAll<Instrument>("Instruments"));

    /// <summary>Every definition.</summary>
    public ImmutableArray<Instrument> All { get; }

    /// <summary>The definition with this id and version, or null.</summary>
    public Instrument? Find(string id, string version) => All.FirstOrDefault(i => i.Id == id && i.Version == version);

    private static IEnumerable<string> Faults(Instrument instrument)
    {
        var tasks = instrument.Tasks.Select(t => t.Id).ToHashSet();
        if (tasks.Count != instrument.Tasks.Length)
        {
            yield return $"{instrument.Id}: two tasks share an id.";
        }

        if (!instrument.Tasks.Select(t => t.Order).SequenceEqual(Enumerable.Range(1, instrument.Tasks.Length)))
        {
            yield return $"{instrument.Id}: tasks are not numbered from 1 in their order.";
        }

        if (!instrument.HandOrder.Order().SequenceEqual([HandRole.NonDominant, HandRole.Dominant]))
        {
            yield return $"{instrument.Id}: the hand order does not name each role once.";
        }

        foreach (var task in instrument.Totals.SelectMany(t => t.Tasks).Concat(instrument.Precautions.SelectMany(p => p.MayRuleOut)))
        {
            if (!tasks.Contains(task))
            {
                yield return $"{instrument.Id}: {task} is not one of its tasks.";
            }
        }
    }
}
