using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Fhir.Mapping.Narratives;

namespace HandFhirBridge.Fhir.Mapping;

/// <summary>Conditions of a session in the words the narratives use, so that a page and a resource never say it differently.</summary>
public static class TestConditions
{
    /// <summary>Set-up and precautions, each with how it was.</summary>
    /// <param name="session">Session with its scores.</param>
    /// <param name="instrument">Definition it was given by.</param>
    public static ImmutableArray<TestCondition> Of(ScoredSession session, Instrument instrument)
    {
        ArgumentNullException.ThrowIfNull(session);
        return [.. SetupRows.Of(session.Session, new InstrumentWords(instrument)).Select(row => new TestCondition(row[0], row[1]))];
    }

    /// <summary>What was not as the instrument asks; empty if all was.</summary>
    /// <param name="session">Session with its scores.</param>
    /// <param name="instrument">Definition it was given by.</param>
    public static ImmutableArray<string> Departures(ScoredSession session, Instrument instrument)
    {
        ArgumentNullException.ThrowIfNull(session);
        return [.. ConditionSentences.Departures(session, instrument, new InstrumentWords(instrument))];
    }
}
