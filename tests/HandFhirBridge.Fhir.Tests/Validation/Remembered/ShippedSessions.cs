using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Tests.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>The sessions whose shapes come with the program: the examples, and plain sessions of every hand, sex and set-up a first command is likely to meet.</summary>
internal static class ShippedSessions
{
    public static IEnumerable<Bundle> All =>
        from session in Repository.ExampleSessions().Select(path => (Session: Mapped.Session(path), Plain: false)).Concat(Plain().Select(plain => (Session: plain, Plain: true)))
        from demonstration in new[] { true, false }
        let bundle = Mapped.Map(session.Session, demonstration)
        from unprinted in session.Plain ? new[] { false } : [true, false]
        select unprinted ? bundle : Printed(bundle);

    private static IEnumerable<Session> Plain() =>
        from hand in Enum.GetValues<Hand>()
        from sex in new[] { SexForNorm.Female, SexForNorm.Male }
        from administered in new[] { true, false }
        from kit in new[] { true, false }
        from change in Changes
        let plain = Samples.Clean with
        {
            SexForNorm = sex,
            Dominance = Samples.Clean.Dominance with { Handedness = hand == Hand.Right ? Handedness.Right : Handedness.Left, TestedAsDominant = hand },
            Encounter = administered ? Samples.Clean.Encounter : null,
            Order = administered ? Samples.Clean.Order : null,
            Setup = kit ? Samples.Clean.Setup : Samples.Clean.Setup with { Kit = null },
        }
        select plain with { Trials = [.. plain.Trials.Select(change)] };

    private static Func<Trial, Trial>[] Changes { get; } =
    [
        trial => trial,
        trial => trial with { Seconds = Math.Min(119m, trial.Seconds!.Value * 3) },
        trial => trial with { Note = "A note." },
    ];

    // As the service attaches it; what is printed is not looked into.
    private static Bundle Printed(Bundle bundle)
    {
        var report = bundle.Only<DiagnosticReport>();
        report.PresentedForm =
        [
            new()
            {
                ContentType = "application/pdf",
                Language = "en",
                Data = [1, 2, 3],
                SizeUnsignedInt = 3,
                Hash = [1, 2, 3],
                Title = "Title",
                CreationElement = new FhirDateTime(report.Issued!.Value),
            },
        ];
        return bundle;
    }
}
