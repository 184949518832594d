using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation.Remembered;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation.Remembered;

/// <summary>What is the same shape and what is not, by the rules a verdict hangs on.</summary>
public sealed class ShapeTests
{
    public static TheoryData<string> Same => [.. SameChanges.Keys];

    public static TheoryData<string> Other => [.. OtherChanges.Keys];

    private static Dictionary<string, Action<Observation>> SameChanges { get; } = new(StringComparer.Ordinal)
    {
        ["other seconds"] = trial => Seconds(trial).Value = 98.76m,
        ["other time"] = trial => trial.Effective = new FhirDateTime("2025-12-31T23:59:59-11:00"),
        ["other id"] = trial => trial.Id = "0f0f0f0f-8b86-5011-b42d-00cf4fc964ff",
        ["other words in the narrative"] = trial => trial.Text!.Div = trial.Text.Div!.Replace(" s", " seconds &amp; more", StringComparison.Ordinal),
        ["other patient"] = trial => trial.Subject!.Identifier!.Value = "another",
        ["other run order"] = trial => trial.GetExtension(Extensions.RunOrder)!.Value = new PositiveInt(99),
    };

    private static Dictionary<string, Action<Observation>> OtherChanges { get; } = new(StringComparer.Ordinal)
    {
        ["no time (hfb-5)"] = trial => Seconds(trial).Value = 0,
        ["less than no time (hfb-5)"] = trial => Seconds(trial).Value = -5,
        ["z-score beyond the judgement (hfb-9)"] = trial => ZScore(trial).Value = 2.01m,
        ["z-score at the judgement (hfb-9)"] = trial => ZScore(trial).Value = 2.00m,
        ["range upside down (hfb-13)"] = trial => trial.ReferenceRange[0].High!.Value = trial.ReferenceRange[0].Low!.Value - 0.01m,
        ["range without extent (hfb-13)"] = trial => trial.ReferenceRange[0].High!.Value = trial.ReferenceRange[0].Low!.Value,
        ["ages upside down (rng-2)"] = trial => trial.ReferenceRange[0].Age!.High!.Value = 1,
        ["range without its mark (hfb-12)"] = trial => trial.ReferenceRange[0].Text = "Norm",
        ["other unit"] = trial => Seconds(trial).Code = "min",
        ["other code"] = trial => trial.Code.Coding[0].Code = "writing-right",
        ["other display"] = trial => trial.Code.Coding[0].Display = "Writing",
        ["date without time (hfb-18)"] = trial => trial.Effective = new FhirDateTime("2025-12-31"),
        ["day that does not exist"] = trial => trial.Effective = new FhirDateTime("2025-02-30T09:00:00+01:00"),
        ["id of other letters"] = trial => trial.Id = "a_b",
        ["empty words"] = trial => trial.Subject!.Identifier!.Value = string.Empty,
        ["words of white space"] = trial => trial.Subject!.Identifier!.Value = "\u00a0",
        ["script in the narrative"] = trial => trial.Text!.Div = trial.Text.Div!.Replace("</div>", "<script>x</script></div>", StringComparison.Ordinal),
        ["narrative without text (txt-2)"] = trial => trial.Text!.Div = "<div xmlns=\"http://www.w3.org/1999/xhtml\"> </div>",
        ["reference to another kind of entry"] = trial => trial.DerivedFrom[0].Reference = trial.Device!.Reference,
        ["reference to nothing in the bundle"] = trial => trial.DerivedFrom[0].Reference = "urn:uuid:6f9619ff-8b86-5011-b42d-00cf4fc964ff",
        ["reference that is no patient's (hfb-25)"] = trial => trial.Subject!.Reference = "Device/1",
        ["unknown extension"] = trial => trial.AddExtension("https://elsewhere.example/unknown", new FhirString("x")),
        ["contained resource (dom-3)"] = trial => trial.Contained.Add(new Device { Id = "x" }),
        ["profile not claimed"] = trial => trial.Meta = null,
        ["twice as many performers"] = trial => trial.Performer.Add(trial.Performer[0]),
    };

    [Theory]
    [MemberData(nameof(Same))]
    public void Of_ValueThatNoRuleTellsApart_IsTheSameShape(string change) => Shape(SameChanges[change]).ShouldBe(Shape(_ => { }));

    [Theory]
    [MemberData(nameof(Other))]
    public void Of_ValueThatARuleTellsApart_IsAnotherShapeOrNone(string change)
    {
        var good = Shape(_ => { }).ShouldNotBeNull();

        Shape(OtherChanges[change]).ShouldNotBe(good);
    }

    private static ShapeKey? Shape(Action<Observation> change)
    {
        var bundle = Mapped.Map(Samples.Clean);
        var at = bundle.Entry.FindIndex(entry => entry.Resource is Observation { Code.Coding: [{ Code: "writing-left" }] });
        change((Observation)bundle.Entry[at].Resource!);
        return SessionShapes.Of(bundle).Entries[at];
    }

    private static Quantity Seconds(Observation trial) => (Quantity)trial.Value!;

    private static Quantity ZScore(Observation trial) => (Quantity)trial.Component(ComponentCodes.ZScore)!.Value!;
}
