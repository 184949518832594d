using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Holds single changes between two comparable sessions against measurement error.</summary>
internal sealed class ChangeJudge(Session earlier, Session later, IReadOnlyCollection<MeasurementError> errors)
{
    private readonly bool _setupDiffered = earlier.Setup.TemplateBoard != later.Setup.TemplateBoard
        || !earlier.Setup.ItemsReplaced.ToHashSet().SetEquals(later.Setup.ItemsReplaced);

    public SessionChange Judge(string subject, Hand hand, decimal? before, decimal? after)
    {
        if (after - before is not { } change)
        {
            return None(null, NoVerdict.NoPlainTime);
        }

        if (_setupDiffered)
        {
            return None(change, NoVerdict.SetupDiffered);
        }

        return Fitting(subject, hand) switch
        {
            [] => None(change, NoVerdict.NoMeasurementError),
            [var error] => new(subject, hand, before, after, change, error, Verdict(change, error), null),
            _ => None(change, NoVerdict.SeveralMeasurementErrors),
        };

        SessionChange None(decimal? seconds, NoVerdict why) => new(subject, hand, before, after, seconds, null, null, why);
    }

    // One measured for the hand's role goes before one for both; one for another role never applies, and where the role changed
    // between the sessions neither role's does.
    private List<MeasurementError> Fitting(string subject, Hand hand)
    {
        var role = later.Dominance.RoleOf(hand);
        var fitting = errors.Distinct()
            .Where(e => e.Subject == subject && (e.Instrument is null || e.Instrument == later.Instrument.Id))
            .Where(e => e.Role is null || (e.Role == role && earlier.Dominance.RoleOf(hand) == role))
            .ToLookup(e => e.Role is not null);
        return [.. fitting[fitting.Contains(true)]];
    }

    private static ChangeVerdict Verdict(decimal change, MeasurementError error) => !error.IsExceededBy(change)
        ? ChangeVerdict.WithinMeasurementError
        : change < 0 ? ChangeVerdict.FasterBeyondMeasurementError : ChangeVerdict.SlowerBeyondMeasurementError;
}
