using System.Collections.Immutable;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Reports;

namespace HandFhirBridge.Service.Charts;

/// <summary>Makes the points of one series, session by session.</summary>
/// <param name="sessions">Oldest first.</param>
/// <param name="changes">Change between two sessions.</param>
/// <param name="subject">Task id or total id.</param>
/// <param name="hand">Hand.</param>
internal sealed class SeriesBuilder(
    IReadOnlyList<RecordedSession> sessions, CourseChanges changes, string subject, Hand hand)
{
    private readonly ImmutableArray<CoursePoint>.Builder points = ImmutableArray.CreateBuilder<CoursePoint>();
    private IReadOnlyList<string> sets = [];
    private int? first;

    /// <summary>One point a session.</summary>
    public ImmutableArray<CoursePoint> Points()
    {
        for (var place = 0; place < sessions.Count; place++)
        {
            points.Add(Compared(place, Found(place)));
        }

        return points.ToImmutable();
    }

    private CoursePoint Found(int place)
    {
        var scored = sessions[place].Scored;
        var role = scored.Session.Dominance.RoleOf(hand);
        return scored.Counted.FirstOrDefault(t => t.Trial.Task == subject && t.Trial.Hand == hand) is { } trial
            ? OfTrial(place, trial)
            : scored.Totals.FirstOrDefault(t => t.TotalId == subject && t.Hand == hand) is { } total
                ? OfTotal(place, total)
                : Bare(place, PointKind.NoTime, "not given", null, role);
    }

    private CoursePoint OfTrial(int place, ScoredTrial scored)
    {
        var kind = scored.Trial.Outcome switch
        {
            TrialOutcome.Completed => PointKind.Time,
            TrialOutcome.StoppedAtCap => PointKind.Bound,
            _ => PointKind.NoTime,
        };
        return Bare(place, kind, Words.Of(scored.Trial.Outcome), kind == PointKind.NoTime ? null : scored.Trial.Seconds, scored.Role) with
        {
            Norms = [.. scored.Norms.Select(ReportNorm.Of)],
            Z = scored.Score?.Z,
            PercentOfMean = scored.Score?.PercentOfMean,
            Judgement = scored.Score?.Judgement,
            Departures = [.. scored.Trial.Departures.Select(Words.Of)],
            Reason = scored.Trial.Reason,
        };
    }

    private CoursePoint OfTotal(int place, HandTotal total) => total.Seconds is { } seconds
        ? Bare(place, PointKind.Time, "complete", seconds, total.Role) with { NormMean = total.NormMean }
        : Bare(place, PointKind.NoTime, "incomplete", null, total.Role) with { Reason = $"without {string.Join(", ", total.MissingTasks.Select(Words.Of))}" };

    private CoursePoint Bare(int place, PointKind kind, string outcome, decimal? seconds, HandRole role) => new(
        place, kind, outcome, seconds, role, [], null, null, null, null, null, null, null, null, [], null,
        sessions[place].Observations.GetValueOrDefault($"{sessions[place].Scored.Session.Key}/{subject}/{WireName.Of(hand)}") is { } id ? $"Observation/{id}" : null);

    private CoursePoint Compared(int place, CoursePoint point)
    {
        var later = point.Norms.Select(n => n.Set).Distinct().Order(StringComparer.Ordinal).ToList();
        var why = place == 0 ? null : string.Join("; ", new[]
        {
            CourseBreaks.Protocol(sessions[place - 1].Scored.Session, sessions[place].Scored.Session),
            CourseBreaks.Norms(sets, later),
            CourseBreaks.Role(points[place - 1].Role, point.Role),
        }.OfType<string>());
        sets = later.Count > 0 ? later : sets;
        if (!string.IsNullOrEmpty(why))
        {
            point = point with { Break = why };
            first = null;
        }

        if (point.Kind != PointKind.Time)
        {
            return point;
        }

        if (first is not { } begin)
        {
            first = place;
            return point;
        }

        return changes.Between(begin, place, subject, hand) is { } change
            ? point with { Change = change.Seconds, MinimalDetectableChange = change.Error?.MinimalDetectableChange, Verdict = change.Verdict }
            : point;
    }
}
