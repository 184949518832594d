using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Scoring;

/// <summary>Sessions for scoring tests; the times are given, everything else is plain.</summary>
internal static class Sessions
{
    public static readonly ImmutableArray<string> Tasks = [.. InstrumentLibrary.Embedded.All[0].Tasks.Select(t => t.Id)];

    public static ScoredSession Score(Session session, bool demonstration = true, NormLibrary? norms = null) =>
        new Scorer(InstrumentLibrary.Embedded, norms ?? NormLibrary.Embedded, new ScoringOptions(demonstration)).Score(session);

    public static Session With(IEnumerable<Trial> trials, SexForNorm sex = SexForNorm.Male, string birthDate = "1990-06-15", string day = "2026-03-02") => new(
        "s1", 1, "clinic", new("seven-task", "1"),
        new(new("https://clinic.example/mrn", "1"), "Example", DateOnly.ParseExact(birthDate, "yyyy-MM-dd")),
        new(new("https://clinic.example/staff", "1"), "A Therapist", PerformerRole.OccupationalTherapist), null, null,
        new(DateTime.ParseExact(day + " 09:00", "yyyy-MM-dd HH:mm", null), TimeSpan.FromHours(1)),
        new(DateTime.ParseExact(day + " 09:30", "yyyy-MM-dd HH:mm", null), TimeSpan.FromHours(1)),
        new(Handedness.Right, DominanceSource.Stated, null, Hand.Right), sex,
        new(Glasses.NotNeeded, false, 120, null, null, null, null, [], null), [], [.. trials], null, null);

    public static Trial Done(string task, Hand hand, decimal seconds) =>
        new(task, hand, TrialOutcome.Completed, seconds, null, TimeSource.Manual, true, [], null, null);

    public static Trial Missing(string task, Hand hand, TrialOutcome outcome = TrialOutcome.Unable) =>
        new(task, hand, outcome, outcome == TrialOutcome.StoppedAtCap ? 120 : null, null, null, true, [], "reason", null);

    public static IEnumerable<Trial> Battery(Hand hand, params decimal?[] seconds) =>
        Tasks.Zip(seconds, (task, time) => time is { } s ? Done(task, hand, s) : Missing(task, hand));
}
