using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Instruments;

public sealed class InstrumentFaultsTests
{
    private static readonly Instrument Sound = InstrumentLibrary.Embedded.All[0];

    /// <summary>Definitions that contradict themselves in one way each, and the words that must say so.</summary>
    public static TheoryData<string, Func<Instrument, Instrument>> Faults => new()
    {
        { "a list is missing", i => i with { Tasks = default } },
        { "a list is missing", i => i with { Departures = default } },
        { "a list is missing", i => First(i, t => t with { Outcomes = [] }) },
        { "not numbered from 1", i => First(i, t => t with { Order = 2 }) },
        { "does not name each role once", i => i with { HandOrder = [HandRole.Dominant] } },
        { "does not name each role once", i => i with { HandOrder = [HandRole.Dominant, HandRole.Dominant] } },
        { "knitting is not one of its tasks", i => i with { Totals = [new("t", "T", ["knitting"])] } },
        { "knitting is not one of its tasks", i => i with { Precautions = [new("p", "?", ["knitting"], "c", "s")] } },
        { "counts a task twice", i => i with { Totals = [new("t", "T", ["writing", "writing"])] } },
        { "tasks and totals share an id", i => i with { Totals = [new("writing", "T", ["writing"])] } },
        { "departures share an id", i => i with { Departures = [.. i.Departures, i.Departures[0]] } },
        { "precautions share an id", i => i with { Precautions = [.. i.Precautions, i.Precautions[0]] } },
        { "measures share an id", i => i with { Room = [.. i.Room, i.Room[0]] } },
        { "cap, longest time or decimals", i => i with { SuggestedCapSeconds = 601 } },
        { "cap, longest time or decimals", i => i with { SuggestedCapSeconds = 0 } },
        { "the measure table-height cannot be", i => i with { Room = [i.Room[0] with { Inches = 0 }] } },
        { "the measure table-height cannot be", i => i with { Room = [i.Room[0] with { ToleranceInches = 30 }] } },
        { "the material pen has two titles", i => First(i, t => t with { Materials = [t.Materials[0], t.Materials[0] with { Title = "Pencil" }] }) },
        { "counts nothing", i => First(i, t => t with { Objects = 0 }) },
        { "counts nothing", i => First(i, t => t with { Materials = [t.Materials[0] with { Count = 0 }] }) },
        { "cannot be completed", i => First(i, t => t with { Outcomes = [TrialOutcome.Declined] }) },
        { "names an outcome twice", i => First(i, t => t with { Outcomes = [.. t.Outcomes, TrialOutcome.Declined] }) },
        { "without saying what it rests on", i => First(i, t => t with { Stop = new("x", " ") }) },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Constructor_ContradictoryDefinition_IsRefused(string words, Func<Instrument, Instrument> spoil) =>
        Should.Throw<InvalidOperationException>(() => new InstrumentLibrary([spoil(Sound)])).Message.ShouldContain(words);

    [Fact]
    public void Constructor_SameVersionTwice_IsRefused() =>
        Should.Throw<InvalidOperationException>(() => new InstrumentLibrary([Sound, Sound])).Message.ShouldContain("defined twice");

    [Fact]
    public void Constructor_TwoVersions_AreBothFound()
    {
        var library = new InstrumentLibrary([Sound, Sound with { Version = "2" }]);

        library.Find("seven-task", "2")!.Version.ShouldBe("2");
        library.Find("seven-task", "3").ShouldBeNull();
    }

    private static Instrument First(Instrument instrument, Func<TaskDefinition, TaskDefinition> spoil) =>
        instrument with { Tasks = instrument.Tasks.SetItem(0, spoil(instrument.Tasks[0])) };
}
