using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Service.Charts;

/// <summary>Changes between sessions of a course, each pair of sessions compared once.</summary>
/// <param name="sessions">Oldest first.</param>
/// <param name="errors">Measurement errors.</param>
internal sealed class CourseChanges(IReadOnlyList<RecordedSession> sessions, IReadOnlyCollection<MeasurementError> errors)
{
    private readonly Dictionary<(int, int), ImmutableArray<SessionChange>> compared = [];

    /// <summary>Change of a task or total; null where the sessions cannot be compared.</summary>
    public SessionChange? Between(int earlier, int later, string subject, Hand hand)
    {
        if (!compared.TryGetValue((earlier, later), out var all))
        {
            var (before, after) = (sessions[earlier].Scored, sessions[later].Scored);
            all = ChangeScorer.Comparable(before.Session, after.Session) ? ChangeScorer.Compare(before, after, errors) : [];
            compared[(earlier, later)] = all;
        }

        return all.FirstOrDefault(c => c.Subject == subject && c.Hand == hand);
    }

    /// <summary>Each measurement error that a change was held against.</summary>
    public IEnumerable<MeasurementError> Used() => compared.Values.SelectMany(all => all).Select(c => c.Error).OfType<MeasurementError>().Distinct();
}
