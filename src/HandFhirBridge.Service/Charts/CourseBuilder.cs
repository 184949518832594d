using System.Collections.Immutable;
using System.Globalization;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Reports;

namespace HandFhirBridge.Service.Charts;

/// <summary>Makes the course of sessions read back from the record.</summary>
/// <param name="instruments">Gives tasks and totals their titles and order.</param>
/// <param name="errors">Measurement errors that change is held against.</param>
public sealed class CourseBuilder(InstrumentLibrary instruments, IReadOnlyCollection<MeasurementError> errors)
{
    /// <summary>The course of <paramref name="recorded"/>, in any order.</summary>
    /// <param name="recorded">Sessions that can be shown.</param>
    /// <param name="notShown">Those that cannot.</param>
    /// <param name="withdrawn">Number of those entered in error.</param>
    public Course Build(IEnumerable<RecordedSession> recorded, ImmutableArray<SessionNotShown> notShown, int withdrawn)
    {
        ArgumentNullException.ThrowIfNull(recorded);
        var sessions = recorded.OrderBy(r => r.Scored.Session.StartedAt).ThenBy(r => r.Scored.Session.Key, StringComparer.Ordinal).ToList();
        var changes = new CourseChanges(sessions, errors);
        return new(
            [.. sessions.Select(Session)],
            Series(sessions, changes),
            notShown,
            withdrawn,
            sessions.Select(s => (s.Scored.Session.Patient.Identifier, s.Scored.Session.Patient.BirthDate)).Distinct().Count() > 1,
            sessions.Any(s => s.Scored.Demonstration),
            ReportNormSource.Of(sessions.Select(s => s.Scored)),
            [.. changes.Used().Select(Source).Distinct().Order(StringComparer.Ordinal)],
            ReportBuilder.Caution);
    }

    private ImmutableArray<CourseSeries> Series(List<RecordedSession> sessions, CourseChanges changes)
    {
        if (sessions is not [.., var latest])
        {
            return [];
        }

        var named = latest.Scored.Session.Instrument;
        var instrument = instruments.Find(named.Id, named.Version)
            ?? throw new InvalidOperationException($"No definition of {named.Id} {named.Version}.");
        var subjects = instrument.Tasks.OrderBy(t => t.Order).Select(t => (t.Id, t.Title)).Concat(instrument.Totals.Select(t => (t.Id, t.Title)));
        return
        [
            .. subjects.SelectMany(s => new[] { Hand.Left, Hand.Right }
                .Select(hand => new CourseSeries(s.Id, s.Title, hand, new SeriesBuilder(sessions, changes, s.Id, hand).Points()))),
        ];
    }

    private static CourseSession Session(RecordedSession recorded)
    {
        var session = recorded.Scored.Session;
        return new(
            session.Site, session.SessionId, session.Revision, session.StartedAt, session.AgeInYears, session.Performer.Name, recorded.ReportId,
            [.. Protocol(recorded.Scored)]);
    }

    private static IEnumerable<string> Protocol(ScoredSession scored)
    {
        var setup = scored.Session.Setup;
        if (setup.TemplateBoard)
        {
            yield return "template board used";
        }

        if (setup.CapSeconds is { } cap)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"trials stopped after {cap} s");
        }

        if (setup.Glasses is Glasses.NeededNotWorn)
        {
            yield return "glasses needed and not worn";
        }

        foreach (var item in setup.ItemsReplaced)
        {
            yield return $"{Words.Of(item.Item)} replaced by {item.ReplacedBy}";
        }

        if (scored.OrderDeparted)
        {
            yield return "not in the standard order";
        }
    }

    private static string Source(MeasurementError error) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Words.Of(error.Subject)}: minimal detectable change {error.MinimalDetectableChange} s at {error.Level} % in {error.Population} ({error.Source})");
}
