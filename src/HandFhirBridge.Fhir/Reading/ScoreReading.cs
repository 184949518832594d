using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;

namespace HandFhirBridge.Fhir.Reading;

/// <summary>Scores the session once more with the norms that stand in the record, and notes every score in the record that comes out differently.</summary>
internal sealed class ScoreReading(
    SessionMembers members, Session session, ImmutableArray<ReadAttempt> attempts, InstrumentLibrary instruments)
{
    public ScoredSession Read()
    {
        // Cells from memory were shown in a demonstration; whether they may be used was decided when they were.
        var scored = new Scorer(instruments, Norms(), new ScoringOptions(Demonstration: true)).Score(session);
        return scored with { Trials = [.. scored.Trials.Select((trial, place) => Check(trial, attempts[place]))] };
    }

    // One set for each set named; only the cells that were shown are known, and each applies to this patient or is noted below.
    private NormLibrary Norms() => new(
    [
        .. attempts.SelectMany(a => a.Norms).GroupBy(n => (n.NormSetId, n.NormSetVersion)).Select(set => new NormSet(
            set.Key.NormSetId, set.Key.NormSetVersion, session.Instrument.Id, set.Key.NormSetId, [.. set.Select(n => n.Cell).Distinct()])),
    ]);

    private ScoredTrial Check(ScoredTrial scored, ReadAttempt stated)
    {
        if (scored.Role != stated.Role)
        {
            stated.Place.At("component").Contradicts(WireName.Of(stated.Role), $"the {WireName.Of(scored.Trial.Hand)} hand is {WireName.Of(scored.Role)}");
        }

        if (!scored.Norms.ToHashSet().SetEquals(stated.Norms) || scored.Norms.Length != stated.Norms.Length)
        {
            stated.Place.At("referenceRange").Contradicts(
                $"{stated.Norms.Length} norms", $"{scored.Norms.Length} of them apply to this patient and hand");
        }

        CheckAttempt(scored, stated);
        StatedScore.Check(scored, stated);
        return WithReason(scored, stated);
    }

    private void CheckAttempt(ScoredTrial scored, ReadAttempt stated)
    {
        var expected = members.Keys.Attempt(scored);
        if (!scored.Trial.Counted && SessionMembers.IdentifierOf(stated.Observation)?.Value != expected)
        {
            stated.Place.At("identifier.value").Contradicts(SessionMembers.IdentifierOf(stated.Observation)?.Value, $"by the order run it is {expected}");
        }
    }

    // Which norms were at hand cannot be told from those shown, so why none applied is taken as stated.
    private ScoredTrial WithReason(ScoredTrial scored, ReadAttempt stated)
    {
        if (!scored.Trial.Counted || scored.Score is not null)
        {
            return scored;
        }

        var place = stated.Place.At($"extension('{Extensions.NotJudged}')");
        if (stated.NotJudged is not { } reason)
        {
            place.Missing();
            return scored;
        }

        var noNorm = scored.WhyNotJudged is NoJudgement.AgeOutsideNorms or NoJudgement.NoNorm;
        var possible = noNorm
            ? reason == NoJudgement.NoNorm || (reason == NoJudgement.AgeOutsideNorms && attempts.All(a => a.Norms.IsEmpty))
            : reason == scored.WhyNotJudged;
        if (!possible)
        {
            place.Contradicts(WireName.Of(reason), $"scoring gives {WireName.Of(scored.WhyNotJudged!.Value)}");
        }

        return scored with { WhyNotJudged = reason };
    }
}
