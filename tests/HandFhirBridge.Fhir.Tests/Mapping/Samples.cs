using System.Collections.Immutable;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Scoring;
using HandFhirBridge.Assessment.Sessions;
using Hl7.Fhir.Model;
using Evidence = HandFhirBridge.Assessment.Norms.Evidence;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>Variations of one plain session: right-handed woman, all trials completed, kit, order, encounter, cap 120 s.</summary>
internal static class Samples
{
    public static Session Clean { get; } = Mapped.Example("tarrowby-visit-3");

    /// <summary>A void first attempt of card turning with the left hand before the one that counts.</summary>
    public static Session Repeated { get; } = Mapped.Example("vandermoss-visit-2");

    public static Session With(this Session session, string task, Hand hand, Func<Trial, Trial> change) => session with
    {
        Trials = [.. session.Trials.Select(t => t.Task == task && t.Hand == hand && t.Counted ? change(t) : t)],
    };

    /// <summary>The clean session with one trial that has no time.</summary>
    public static Session Without(string task, Hand hand, TrialOutcome outcome, string? reason) =>
        Clean.With(task, hand, t => t with { Outcome = outcome, Seconds = null, Source = null, Reason = reason });

    /// <summary>The clean session with one trial stopped at the cap of 120 s.</summary>
    public static Session Stopped(string task, Hand hand) =>
        Clean.With(task, hand, t => t with { Outcome = TrialOutcome.StoppedAtCap, Seconds = 120m });

    public static Observation Trial(this Bundle bundle, string task, Hand hand) => bundle.OfCode($"{task}-{WireName.Of(hand)}");

    public static Observation OfCode(this Bundle bundle, string code) =>
        bundle.All<Observation>().Single(o => o.Code.Coding.Any(c => c.Code == code));

    public static T Only<T>(this Bundle bundle)
        where T : Resource => bundle.All<T>().Single();

    public static IEnumerable<T> All<T>(this Bundle bundle)
        where T : Resource => bundle.Entry.Select(e => e.Resource).OfType<T>();

    public static Observation.ComponentComponent? Component(this Observation observation, string code) =>
        observation.Component.SingleOrDefault(c => c.Code.Coding.Single().Code == code);

    public static string Code(this DataType? concept) => ((CodeableConcept)concept!).Coding.Single().Code!;

    /// <summary>Scores against one norm that the clinic entered, invented for these tests: dominant hand, women of 20 to 59.</summary>
    public static ScoredSession AgainstSiteNorm(Session session, string task, decimal mean, decimal deviation)
    {
        ImmutableArray<NormCell> cells =
        [
            .. from sex in new[] { SexForNorm.Female, SexForNorm.Male }
               select new NormCell(task, HandRole.Dominant, sex, 20, 59, 41, mean, deviation, Evidence.SiteDoubleEntry, "Invented for this test", "A note"),
        ];
        var norms = new NormLibrary([new NormSet("site-set", "3", "seven-task", "Site set", cells)]);
        return new Scorer(InstrumentLibrary.Embedded, norms, new ScoringOptions(false)).Score(session);
    }
}
