using System.Collections.Immutable;
using System.Text;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Charts;
using HandFhirBridge.Service.Tests.Support;

namespace HandFhirBridge.Service.Tests.Charts;

/// <summary>Courses of an invented patient whose sessions differ in what a test asks for.</summary>
internal static class Courses
{
    private const string Task = "card-turning";

    private static readonly Session Example = new SessionReader(InstrumentLibrary.Embedded, TimeProvider.System)
        .Read(Encoding.UTF8.GetBytes(File.ReadAllText(Repository.Example("sessions", "harbour-hand-clinic", "ashdenne-visit-1.json")))).Value!;

    /// <summary>A session so many days after the first, card turning with the left hand as given.</summary>
    public static Session On(int day, decimal? seconds, TrialOutcome outcome = TrialOutcome.Completed) => Example with
    {
        SessionId = $"S-{day}",
        StartedAt = Example.StartedAt.AddDays(day),
        EndedAt = Example.EndedAt.AddDays(day),
        Trials = [.. Example.Trials.Select(t => (t.Task, t.Hand) == (Task, Hand.Left)
            ? t with { StartedAt = null, Outcome = outcome, Seconds = seconds, Source = seconds is null ? null : t.Source, Reason = outcome == TrialOutcome.NotGiven ? "splint" : null }
            : t with { StartedAt = null })],
    };

    /// <summary>Scored with the norms for demonstration.</summary>
    public static ScoredSession Scored(Session session) =>
        new Scorer(InstrumentLibrary.Embedded, NormLibrary.Embedded, new ScoringOptions(Demonstration: true)).Score(session);

    /// <summary>The course of <paramref name="sessions"/>.</summary>
    public static Course Of(params IEnumerable<ScoredSession> sessions) => new CourseBuilder(
        InstrumentLibrary.Embedded,
        [new MeasurementError(Task, null, "invented patients", 1m, 95, "invented for this test")])
        .Build(sessions.Select(s => new RecordedSession(s, $"report-{s.Session.SessionId}", ImmutableDictionary<string, string>.Empty)), [], 0);

    /// <summary>The series that the sessions of <see cref="On"/> vary.</summary>
    public static CourseSeries Varied(this Course course) => course.Series.Single(s => s.Subject == Task && s.Hand == Hand.Left);
}
