using System.Collections.Immutable;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Instruments;

/// <summary>One everyday task of an instrument.</summary>
/// <param name="Id">Stable kebab-case id.</param>
/// <param name="Order">1-based place in the standard order.</param>
/// <param name="Title">Name of the task in the trade.</param>
/// <param name="Objects">How many objects are moved, turned or written; used as a check when laying out.</param>
/// <param name="Materials">What lies on the table.</param>
/// <param name="Layout">Where it lies, for the hand under test.</param>
/// <param name="Measures">Lengths of this layout.</param>
/// <param name="Start">What starts the time.</param>
/// <param name="Stop">What stops the time.</param>
/// <param name="Outcomes">Outcomes a trial of this task can have.</param>
public sealed record TaskDefinition(
    string Id,
    int Order,
    string Title,
    int Objects,
    ImmutableArray<Material> Materials,
    ImmutableArray<SourcedFact> Layout,
    ImmutableArray<Measure> Measures,
    SourcedFact Start,
    SourcedFact Stop,
    ImmutableArray<TrialOutcome> Outcomes);
