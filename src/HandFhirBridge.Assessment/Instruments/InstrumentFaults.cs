using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>Contradictions within an instrument's definition. There are none in a definition that is used.</summary>
internal static class InstrumentFaults
{
    public static IEnumerable<string> Find(Instrument instrument) =>
        Lists(instrument).ToList() is { Count: > 0 } missing ? missing : Numbers(instrument)
            .Concat(Order(instrument))
            .Concat(Ids(instrument))
            .Concat(References(instrument))
            .Concat(instrument.Tasks.SelectMany(Task))
            .Select(fault => $"{instrument.Id} {instrument.Version}: {fault}");

    // What is left out of the file is a list without a value, not an empty one.
    private static IEnumerable<string> Lists(Instrument instrument) =>
        new[]
        {
            instrument.Tasks.IsDefaultOrEmpty, instrument.Totals.IsDefaultOrEmpty, instrument.HandOrder.IsDefaultOrEmpty,
            instrument.Room.IsDefault, instrument.Precautions.IsDefault, instrument.Departures.IsDefault,
        }.Contains(true)
        || instrument.Tasks.Any(t => t.Materials.IsDefaultOrEmpty || t.Layout.IsDefaultOrEmpty || t.Measures.IsDefault || t.Outcomes.IsDefaultOrEmpty)
            ? [$"{instrument.Id} {instrument.Version}: a list is missing."]
            : [];

    private static IEnumerable<string> Numbers(Instrument instrument)
    {
        if (instrument.SuggestedCapSeconds <= 0 || instrument.SuggestedCapSeconds > instrument.MaxSeconds || instrument.MaxDecimals is < 0 or > 3)
        {
            yield return "cap, longest time or decimals cannot be.";
        }

        foreach (var measure in instrument.Room.Concat(instrument.Tasks.SelectMany(t => t.Measures)))
        {
            if (measure.Inches <= 0 || measure.ToleranceInches < 0 || measure.ToleranceInches >= measure.Inches)
            {
                yield return $"the measure {measure.Id} cannot be.";
            }
        }
    }

    private static IEnumerable<string> Order(Instrument instrument)
    {
        if (!instrument.Tasks.Select(t => t.Order).SequenceEqual(Enumerable.Range(1, instrument.Tasks.Length)))
        {
            yield return "tasks are not numbered from 1 in their order.";
        }

        if (!instrument.HandOrder.Order().SequenceEqual(Enum.GetValues<HandRole>().Order()))
        {
            yield return "the hand order does not name each role once.";
        }
    }

    private static IEnumerable<string> Ids(Instrument instrument)
    {
        // Tasks and totals are subjects of scores alike and share one name space.
        IEnumerable<(string List, IEnumerable<string> Ids)> lists =
        [
            ("tasks and totals", instrument.Tasks.Select(t => t.Id).Concat(instrument.Totals.Select(t => t.Id))),
            ("precautions", instrument.Precautions.Select(p => p.Id)),
            ("departures", instrument.Departures.Select(d => d.Id)),
            ("room measures", instrument.Room.Select(m => m.Id)),
        ];
        return lists.Where(l => l.Ids.Distinct().Count() != l.Ids.Count()).Select(l => $"two of its {l.List} share an id.");
    }

    private static IEnumerable<string> References(Instrument instrument)
    {
        foreach (var task in instrument.Totals.SelectMany(t => t.Tasks).Concat(instrument.Precautions.SelectMany(p => p.MayRuleOut)))
        {
            if (instrument.FindTask(task) is null)
            {
                yield return $"{task} is not one of its tasks.";
            }
        }

        foreach (var total in instrument.Totals.Where(t => t.Tasks.Distinct().Count() != t.Tasks.Length))
        {
            yield return $"{total.Id} counts a task twice.";
        }

        foreach (var material in instrument.Tasks.SelectMany(t => t.Materials).GroupBy(m => m.Id))
        {
            if (material.Select(m => m.Title).Distinct().Count() > 1)
            {
                yield return $"the material {material.Key} has two titles.";
            }
        }
    }

    private static IEnumerable<string> Task(TaskDefinition task)
    {
        if (task.Objects <= 0 || task.Materials.Any(m => m.Count <= 0))
        {
            yield return $"{task.Id} counts nothing.";
        }

        if (!task.Outcomes.Contains(TrialOutcome.Completed) || task.Outcomes.Distinct().Count() != task.Outcomes.Length)
        {
            yield return $"{task.Id} cannot be completed, or names an outcome twice.";
        }

        ImmutableArray<string> sources =
            [task.Start.Source, task.Stop.Source, .. task.Layout.Select(f => f.Source), .. task.Materials.Select(m => m.Source), .. task.Measures.Select(m => m.Source)];
        if (sources.Any(string.IsNullOrWhiteSpace))
        {
            yield return $"{task.Id} states a fact without saying what it rests on.";
        }
    }
}
