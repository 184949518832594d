using System.Collections.Immutable;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Scoring;

/// <summary>Scores one trial.</summary>
/// <param name="norms">Norms at hand.</param>
/// <param name="options">What the site decided.</param>
internal sealed class TrialScorer(NormLibrary norms, ScoringOptions options)
{
    public ScoredTrial Score(Session session, Trial trial, int runOrder, int attempt)
    {
        var role = session.Dominance.RoleOf(trial.Hand);
        if (!trial.Counted)
        {
            return new(trial, runOrder, attempt, role, [], null, NoJudgement.NoTime);
        }

        var shown = Shown(session, trial.Task, role);
        var score = trial.Outcome == TrialOutcome.Completed && session.SexForNorm != SexForNorm.Unknown && shown.Length == 1
            ? Judge(trial.Seconds!.Value, shown[0])
            : null;
        return new(trial, runOrder, attempt, role, shown, score, score is null ? WhyNot(session, trial) : null);
    }

    private static TrialScore Judge(decimal seconds, NormComparison norm)
    {
        var (mean, sd) = (norm.Cell.Mean, norm.Cell.StandardDeviation);
        var z = (seconds - mean) / sd;
        return new(
            norm,
            decimal.Round(z, 2, MidpointRounding.AwayFromZero),
            decimal.Round(100 * seconds / mean, 1, MidpointRounding.AwayFromZero),
            Percentile(z),
            // On the times themselves: a rounded z of 2.00 may lie on either side.
            seconds > mean + (2 * sd) ? Judgement.Slow : Judgement.WithinNorm);
    }

    private static decimal Percentile(decimal z) => decimal.Clamp(
        decimal.Round((decimal)NormalDistribution.Below((double)z) * 100, 1, MidpointRounding.AwayFromZero), 0.1m, 99.9m);

    private ImmutableArray<NormComparison> Shown(Session session, string task, HandRole role)
    {
        SexForNorm[] sexes = session.SexForNorm == SexForNorm.Unknown ? [SexForNorm.Female, SexForNorm.Male] : [session.SexForNorm];
        return
        [
            .. sexes
                .Select(sex => norms.Find(session.Instrument.Id, task, role, sex, session.AgeInYears, options.Demonstration))
                .OfType<NormComparison>(),
        ];
    }

    private NoJudgement WhyNot(Session session, Trial trial) => trial.Outcome != TrialOutcome.Completed
        ? NoJudgement.NoTime
        : session.SexForNorm == SexForNorm.Unknown
            ? NoJudgement.SexUnknown
            : norms.CoversAge(session.Instrument.Id, session.AgeInYears, options.Demonstration)
                ? NoJudgement.NoNorm
                : NoJudgement.AgeOutsideNorms;
}
