using System.Collections.Frozen;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Codes and words of an instrument: the displays of our code systems are the titles of its definition.</summary>
/// <param name="instrument">The definition.</param>
internal sealed class InstrumentWords(Instrument instrument)
{
    private readonly FrozenDictionary<string, string> tasks = instrument.Tasks.ToFrozenDictionary(t => t.Id, t => t.Title);
    private readonly FrozenDictionary<string, string> departures = instrument.Departures.ToFrozenDictionary(d => d.Id, d => d.Title);
    private readonly FrozenDictionary<string, string> materials = instrument.Tasks.SelectMany(t => t.Materials)
        .DistinctBy(m => m.Id).ToFrozenDictionary(m => m.Id, m => m.Title);

    /// <summary>Title of a task.</summary>
    /// <exception cref="KeyNotFoundException">The instrument has no such task: the session was not checked on reading.</exception>
    public string Task(string id) => tasks[id];

    public string Departure(string id) => departures[id];

    public string Material(string id) => materials[id];

    public Coding CodedTask(string id) => new(CodeSystems.Task, id, Task(id));

    public Coding CodedDeparture(string id) => new(CodeSystems.Departure, id, Departure(id));

    public Coding CodedMaterial(string id) => new(CodeSystems.Material, id, Material(id));

    public Coding Trial(string task, Hand hand) => Concepts.Measure(MeasureCodes.Trial(task, hand), InSide(Task(task), hand));

    public Coding UncountedAttempt(string task, Hand hand) =>
        Concepts.Measure(MeasureCodes.UncountedAttempt(task, hand), InSide(Task(task), hand) + ", attempt not counted");

    public static Coding Total(string totalId, Hand hand) =>
        Concepts.Measure(MeasureCodes.Total(totalId, hand), InSide(Displays.Total(totalId), hand));

    public static Coding Panel(Hand hand) => Concepts.Measure(MeasureCodes.Panel(hand), InSide("Seven-task hand function test", hand));

    private static string InSide(string subject, Hand hand) => $"{subject}, {WireName.Of(hand)} hand";
}
