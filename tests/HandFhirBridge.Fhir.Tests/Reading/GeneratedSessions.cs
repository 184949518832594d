using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Fhir.Tests.Reading;

/// <summary>Sessions of every shape the door accepts: outcomes, repeats, orders, set-ups, texts.</summary>
internal static class GeneratedSessions
{
    private static readonly Instrument Instrument = InstrumentLibrary.Embedded.All.Single();
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 9, 5, 0, TimeSpan.FromHours(1));

    private static readonly Gen<string> Texts = Gen.Elements(
        "Plain.", "a", "Größe Ωmega 手 😀", "<b>&amp;</b> \"quoted\" 'so' ]]>", "two\nlines\tand a tab", " white space around ", "\\ / {0} $1 %");

    public static Gen<Session> All =>
        from cap in Gen.Elements<decimal?>(null, 120m, 99.50m, 30m)
        from head in Heads
        from setup in Setups(cap)
        from precautions in Gen.SubListOf(Instrument.Precautions.AsEnumerable()).SelectMany(asked => Sequence(asked.Select(p => Precautions(p.Id))))
        from trials in Sequence(from task in Instrument.Tasks from hand in Enum.GetValues<Hand>() select Attempts(task.Id, hand, cap))
        from order in Gen.Shuffle(trials.SelectMany(t => t).ToArray())
        from timed in Gen.Elements(true, false)
        from comment in Optional(Texts)
        from conclusion in Optional(from text in Texts from minutes in Gen.Choose(0, 600) select new SignedConclusion(text, Start.AddMinutes(45.5 + minutes)))
        select head with { Setup = setup, Precautions = [.. precautions], Trials = [.. Timed(order, timed)], Comment = comment, Conclusion = conclusion };

    private static Gen<Session> Heads =>
        from dominance in Dominances
        from sex in Member<SexForNorm>()
        from born in Gen.Choose(0, 30_000)
        from revision in Gen.Choose(1, 3)
        from role in Member<PerformerRole>()
        from encounter in Optional(Gen.Constant(new BusinessIdentifier("https://clinic.example/encounter", "E 7/1")))
        from order in Optional(Gen.Constant(new BusinessIdentifier("urn:oid:1.2.3", "O-1")))
        from name in Gen.Elements("Müller", "O'Neill", "d'Æ <x>", "李")
        select new Session(
            "S-1.a", revision, "north-clinic", new(Instrument.Id, Instrument.Version),
            new(new("https://clinic.example/id", "P|001"), name, new DateOnly(1925, 1, 1).AddDays(born)),
            new(new("https://clinic.example/staff", "T 1"), name + " OT", role), encounter, order, Start, Start.AddMinutes(45.5), dominance, sex, null!, [], [], null, null);

    private static Gen<Dominance> Dominances =>
        from handedness in Member<Handedness>()
        from hand in Member<Hand>()
        from source in Member<DominanceSource>()
        from quotient in Optional(Gen.Elements(0m, 5m, -12.50m, 40.0m))
        select new Dominance(handedness, source, quotient, handedness switch
        {
            Handedness.Left => Hand.Left,
            Handedness.Right => Hand.Right,
            _ => hand,
        });

    private static Gen<Setup> Setups(decimal? cap) =>
        from glasses in Member<Glasses>()
        from board in Gen.Elements(true, false)
        from lengths in Gen.ArrayOf(Optional(Lengths), 4)
        from replaced in Gen.SubListOf("pen", "coin", "kidney-bean")
        from replacement in Texts
        from kit in Optional(Gen.Elements(new Kit("Kit 7", "K-7"), new Kit("The <old> box", null)))
        select new Setup(glasses, board, cap, lengths[0], lengths[1], lengths[2], lengths[3], [.. replaced.Select(item => new ItemReplaced(item, replacement))], kit);

    private static Gen<Length> Lengths =>
        from value in Gen.Elements(30m, 76.20m, 0.5m)
        from unit in Member<LengthUnit>()
        select new Length(value, unit);

    private static Gen<PrecautionAsked> Precautions(string id) =>
        from answer in Member<PrecautionAnswer>()
        from tasks in Gen.SubListOf(Instrument.Tasks.Select(t => t.Id))
        from hands in Gen.SubListOf(Enum.GetValues<Hand>())
        from note in Optional(Texts)
        select new PrecautionAsked(id, answer, answer == PrecautionAnswer.No ? [] : [.. tasks], [.. hands], note);

    /// <summary>One attempt that counts, and at times others before or after it.</summary>
    private static Gen<ImmutableArray<Trial>> Attempts(string task, Hand hand, decimal? cap) =>
        from counted in Trials(task, hand, cap, Enum.GetValues<TrialOutcome>())
        from others in Gen.Frequency((6, Gen.Constant(0)), (1, Gen.Constant(1)), (1, Gen.Constant(2)))
        from further in Gen.ListOf(Trials(task, hand, cap, Others(counted.Outcome)), others)
        select (ImmutableArray<Trial>)[counted, .. (counted.Outcome == TrialOutcome.NotGiven ? [] : further).Select(t => t with { Counted = false })];

    // A void attempt counts only where no other is usable.
    private static TrialOutcome[] Others(TrialOutcome counted) => counted == TrialOutcome.Void
        ? [TrialOutcome.Void]
        : [TrialOutcome.Completed, TrialOutcome.StoppedAtCap, TrialOutcome.Unable, TrialOutcome.Declined, TrialOutcome.Void];

    private static Gen<Trial> Trials(string task, Hand hand, decimal? cap, TrialOutcome[] outcomes) =>
        from outcome in Gen.Elements(outcomes.Where(o => cap is not null || o != TrialOutcome.StoppedAtCap))
        from digits in Gen.Choose(1, 3000)
        from scale in Gen.Choose(0, 2)
        from source in Member<TimeSource>()
        from departures in Gen.SubListOf(Instrument.Departures.Select(d => d.Id))
        from reason in Texts
        from given in Gen.Elements(true, false)
        from note in Optional(Texts)
        let timed = outcome is TrialOutcome.Completed or TrialOutcome.StoppedAtCap
        let needed = outcome is TrialOutcome.NotGiven or TrialOutcome.Void
        select new Trial(
            task, hand, outcome,
            outcome == TrialOutcome.StoppedAtCap ? cap : timed ? new decimal(Math.Min(digits, (int)(cap ?? 600) * (int)Math.Pow(10, scale)), 0, 0, false, (byte)scale) : null,
            null, timed ? source : null, true, [.. departures], !timed && (needed || given) ? reason : null, note);

    private static IEnumerable<Trial> Timed(Trial[] order, bool timed) =>
        order.Select((trial, place) => timed ? trial with { StartedAt = Start.AddSeconds((place + 1) * 30).AddMilliseconds(place * 125) } : trial);

    private static Gen<T> Member<T>()
        where T : struct, Enum => Gen.Elements(Enum.GetValues<T>());

    private static Gen<T?> Optional<T>(Gen<T> gen)
        where T : class => Gen.Frequency((1, Gen.Constant<T?>(null)), (2, gen.Select(value => (T?)value)));

    private static Gen<decimal?> Optional(Gen<decimal> gen) => Gen.Frequency((1, Gen.Constant<decimal?>(null)), (2, gen.Select(value => (decimal?)value)));

    private static Gen<IReadOnlyList<T>> Sequence<T>(IEnumerable<Gen<T>> gens) =>
        Gen.CollectToArray(gens, gen => gen).Select(values => (IReadOnlyList<T>)values);
}
