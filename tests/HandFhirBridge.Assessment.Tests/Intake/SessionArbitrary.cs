using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;

namespace HandFhirBridge.Assessment.Tests.Intake;

/// <summary>Sessions that keep every rule and are otherwise arbitrary.</summary>
public static class SessionArbitrary
{
    private static readonly Instrument Instrument = InstrumentLibrary.Embedded.All[0];
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 9, 5, 0, TimeSpan.FromHours(1));

    public static Arbitrary<Session> Session() => Arb.From(
        from id in Id
        from site in Id
        from revision in Gen.Choose(1, int.MaxValue)
        from patient in Patient
        from performer in Performer
        from encounter in Maybe(Identifier)
        from order in Maybe(Identifier)
        from comment in Maybe(Text)
        from minutes in Gen.Choose(0, 400)
        from conclusion in Maybe(from text in Text from later in Gen.Choose(0, 600) select new SignedConclusion(text, Start.AddMinutes(minutes + later)))
        from dominance in Dominance
        from sex in Member<SexForNorm>()
        from setup in Setup
        from precautions in Subset(Instrument.Precautions.Select(p => p.Id)).SelectMany(ids => Gen.CollectToArray(ids, Precaution))
        from trials in Trials(setup.CapSeconds)
        select new Session(id, revision, site, new(Instrument.Id, Instrument.Version), patient, performer, encounter, order,
            Start, Start.AddMinutes(minutes), dominance, sex, setup, [.. precautions], trials, comment, conclusion));

    private static Gen<string> Id =>
        from first in Gen.Elements("aZ0".ToCharArray())
        from rest in Gen.Elements("bY9.-".ToCharArray()).ArrayOf().Resize(40)
        select first + new string(rest);

    // Whatever a keyboard gives, quotation marks, backslashes and characters beyond the basic plane included.
    private static Gen<string> Text => Gen.Elements("a", "Ü", "ß", "\"", "\\", "/", " ", "\n", "\t", "😀", "<", "'", "\u2028", "中").NonEmptyListOf()
        .Select(parts => string.Concat(parts)).Where(t => !string.IsNullOrWhiteSpace(t));

    private static Gen<string> Name => Text.Select(t => t.Replace("\n", "", StringComparison.Ordinal).Replace("\t", "", StringComparison.Ordinal).Trim())
        .Where(t => t.Length > 0);

    private static Gen<BusinessIdentifier> Identifier =>
        from system in Gen.Elements("urn:oid:1.2.3", "https://clinic.example/id/patient", "urn:uuid:0c5a2b3e-6f0a-4a77-9a9c-1f2a5c3d4e5f")
        from value in Name
        select new BusinessIdentifier(system, value);

    private static Gen<PatientIdentity> Patient =>
        from identifier in Identifier
        from name in Name
        from days in Gen.Choose(0, 43000)
        select new PatientIdentity(identifier, name, new DateOnly(2026, 3, 2).AddDays(-days));

    private static Gen<Performer> Performer =>
        from identifier in Identifier
        from name in Name
        from role in Member<PerformerRole>()
        select new Performer(identifier, name, role);

    private static Gen<Dominance> Dominance =>
        from handedness in Member<Handedness>()
        from known in Member<DominanceSource>()
        from quotient in Maybe(Number(-10000, 10000, 2))
        from chosen in Member<Hand>()
        select new Dominance(handedness, known, quotient, handedness == Handedness.Ambidextrous ? chosen : handedness == Handedness.Left ? Hand.Left : Hand.Right);

    private static Gen<Setup> Setup =>
        from glasses in Member<Glasses>()
        from board in Gen.Elements(true, false)
        from cap in Maybe(Number(100, 60000, 2))
        from lengths in Maybe(Gen.Zip(Number(1, 9999, 2), Member<LengthUnit>()).Select(l => new Length(l.Item1, l.Item2))).ArrayOf(4)
        from replaced in Subset(Instrument.Tasks.SelectMany(t => t.Materials).Select(m => m.Id).Distinct()).SelectMany(ids =>
            Gen.CollectToArray(ids, item => Text.Select(t => new ItemReplaced(item, t))))
        from kit in Maybe(Gen.Zip(Name, Maybe(Name)).Select(k => new Kit(k.Item1, k.Item2)))
        select new Setup(glasses, board, cap, lengths[0], lengths[1], lengths[2], lengths[3], [.. replaced], kit);

    private static Gen<PrecautionAsked> Precaution(string id) =>
        from answer in Member<PrecautionAnswer>()
        from tasks in Subset(Instrument.Tasks.Select(t => t.Id))
        from hands in Subset(Enum.GetValues<Hand>())
        from note in Maybe(Text)
        select new PrecautionAsked(id, answer, answer == PrecautionAnswer.No ? [] : tasks, hands, note);

    private static Gen<ImmutableArray<Trial>> Trials(decimal? cap) =>
        from trials in Gen.CollectToArray(
            from task in Instrument.Tasks from hand in Enum.GetValues<Hand>() select (task.Id, hand), t => Trial(t.Id, t.hand, cap))
        from order in Gen.Shuffle(Enumerable.Range(0, trials.Length).ToArray())
        select order.Select(i => trials[i]).ToImmutableArray();

    private static Gen<Trial> Trial(string task, Hand hand, decimal? cap) =>
        from outcome in Member<TrialOutcome>().Where(o => o != TrialOutcome.StoppedAtCap || cap is not null)
        from seconds in Number(1, cap is null ? 60000 : (int)(cap.Value * 100), 2)
        from source in Member<TimeSource>()
        from departures in Subset(Instrument.Departures.Select(d => d.Id))
        from reason in Text
        from note in Maybe(Text)
        let timed = (outcome is TrialOutcome.Completed or TrialOutcome.StoppedAtCap)
        select new Trial(task, hand, outcome, Seconds(outcome, seconds, cap), null,
            timed ? source : (TimeSource?)null, true, departures, timed ? null : reason, note);

    private static decimal? Seconds(TrialOutcome outcome, decimal seconds, decimal? cap) => outcome switch
    {
        TrialOutcome.Completed => Math.Min(seconds, cap ?? seconds),
        TrialOutcome.StoppedAtCap => cap,
        _ => null,
    };

    // Digits after the point vary: 4, 4.2, 4.20.
    private static Gen<decimal> Number(int least, int greatest, int most) =>
        from units in Gen.Choose(least, greatest)
        from scale in Gen.Choose(0, most)
        let number = decimal.Parse((units / 100m).ToString("F" + scale, null), null)
        select number > 0 || least < 0 ? (number == 0 ? 0m : number) : 0.01m;

    private static Gen<T> Member<T>()
        where T : struct, Enum => Gen.Elements(Enum.GetValues<T>());

    private static Gen<ImmutableArray<T>> Subset<T>(IEnumerable<T> all) => Gen.SubListOf(all.ToArray()).Select(s => s.ToImmutableArray());

    private static Gen<T?> Maybe<T>(Gen<T> gen)
        where T : class => Gen.OneOf(gen.Select(v => (T?)v), Gen.Constant<T?>(null));

    private static Gen<decimal?> Maybe(Gen<decimal> gen) => Gen.OneOf(gen.Select(v => (decimal?)v), Gen.Constant<decimal?>(null));
}
