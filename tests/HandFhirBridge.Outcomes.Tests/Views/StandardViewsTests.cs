using System.Text.Json;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Outcomes.Tests.Rows;
using HandFhirBridge.Outcomes.Views;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Outcomes.Tests.Views;

/// <summary>The project's own views over the examples that the profiles' package publishes; expected cells were written from the examples by hand.</summary>
public sealed class StandardViewsTests
{
    private static readonly FhirJsonDeserializer Deserializer = new(new DeserializerSettings().UsingMode(DeserializationMode.Recoverable));

    [Fact]
    public void All_OfFolder_AreThere()
    {
        StandardViews.All.Select(v => v.Name).ShouldBe(["conditions", "patients", "reports", "totals", "trials"]);
        StandardViews.Names.ShouldBe(StandardViews.All.Select(v => v.Name));
    }

    [Fact]
    public void Trials_OfCompletedTrial_HoldWhatTheExampleSays() => Row("trials", "Observation-example-trial-completed").ShouldBe(new Dictionary<string, object?>
    {
        ["trial_key"] = "Observation/x", ["patient_key"] = "Patient/p1", ["site"] = "north-clinic", ["session"] = "S-1", ["task"] = "card-turning", ["hand"] = "left",
        ["hand_role"] = "non-dominant", ["status"] = "final", ["outcome"] = "completed", ["seconds"] = 4.2m, ["seconds_written"] = "4.2", ["comparator"] = null,
        ["absent_reason"] = null, ["z"] = 0.33m, ["percent"] = 105m, ["interpretation"] = "N", ["not_judged"] = null, ["norm_set"] = "invented",
        ["norm_version"] = "1", ["norm_evidence"] = "site-double-entry", ["norm_sex"] = "female", ["norm_demonstration"] = false, ["departures"] = null, ["run_order"] = 3,
        ["time_source"] = "timer", ["started"] = "2026-03-02T09:05:00+01:00", ["day"] = "2026-03-02",
    });

    [Fact]
    public void Trials_OfStoppedTrial_HoldABound()
    {
        var row = Row("trials", "Observation-example-trial-stopped");

        (row["outcome"], row["seconds"], row["comparator"], row["interpretation"], row["z"]).ShouldBe(("stopped-at-cap", 120m, ">", ">", null));
    }

    [Fact]
    public void Trials_OfDeclinedTrial_HoldReasonAndNoTime()
    {
        var row = Row("trials", "Observation-example-trial-declined");

        (row["status"], row["outcome"], row["seconds"], row["absent_reason"], row["norm_set"]).ShouldBe(("cancelled", "declined", null, "asked-declined", null));
    }

    [Fact]
    public void Trials_OfSecondsAsEntered_KeepTheirDigits() =>
        Row("trials", "Observation-example-trial-completed", seconds: "12.40")["seconds_written"].ShouldBe("12.40");

    [Theory]
    [InlineData("trials", "Observation-example-trial-withdrawn")]
    [InlineData("trials", "Observation-example-total")]
    [InlineData("trials", "Observation-example-uncounted-attempt")]
    [InlineData("totals", "Observation-example-panel")]
    [InlineData("reports", "DiagnosticReport-example-report-withdrawn")]
    public void Views_OfOtherOrWithdrawnResource_HaveNoRow(string view, string example) => Rows(view, example).ShouldBeEmpty();

    [Fact]
    public void Totals_OfTotal_HoldWhatTheExampleSays()
    {
        var row = Row("totals", "Observation-example-total");

        (row["site"], row["session"], row["total"], row["hand"], row["seconds"], row["day"]).ShouldBe(("north-clinic", "S-1", "six-task-total", "left", 38.7m, "2026-03-02"));
    }

    [Fact]
    public void Reports_OfReport_HoldWhatTheExampleSays()
    {
        var row = Row("reports", "DiagnosticReport-example-report");

        (row["site"], row["session"], row["revision"], row["report"], row["status"]).ShouldBe(("north-clinic", "S-1", 1, "seven-task-report", "final"));
        (row["results"], row["started"], row["ended"], row["issued"], row["norm_set"])
            .ShouldBe((21, "2026-03-02T09:05:00+01:00", "2026-03-02T09:40:00+01:00", "2026-03-02T09:45:00+01:00", "invented"));
    }

    // Whatever identifies a person by itself (45 CFR 164.514(b)(2)(i): names, addresses, numbers) is in no column.
    [Fact]
    public void Patients_OfPatient_HoldNoNameNumberOrAddress() =>
        StandardViews.Named("patients")!.Select.SelectMany(s => s.Columns).Select(c => c.Name).ShouldBe(["patient_key", "birth_date", "gender", "active", "replaced_by"]);

    // The addresses in the views are those of the mapping: a change of one shows here.
    [Fact]
    public void Constants_OfViews_AreAddressesOfTheMapping()
    {
        var known = new[] { typeof(IdentifierSystems), typeof(Extensions), typeof(CodeSystems) }
            .SelectMany(t => t.GetFields().Where(f => f.IsLiteral).Select(f => (string)f.GetRawConstantValue()!)).ToHashSet();

        StandardViews.All.SelectMany(v => v.Constants).Select(c => c.Value.ToString()!).ShouldAllBe(address => known.Contains(address));
    }

    private static Dictionary<string, object?> Row(string view, string example, string? seconds = null) => Rows(view, example, seconds).ShouldHaveSingleItem();

    private static List<Dictionary<string, object?>> Rows(string view, string example, string? seconds = null)
    {
        var runner = new ViewRunner(StandardViews.Named(view)!);
        var resource = Deserializer.DeserializeResource(InventedSet.Example(example, "x", seconds: seconds).ToJsonString());
        return [.. runner.Rows(resource).Select(row => runner.Columns.Zip(row).ToDictionary(c => c.First.Name, c => c.Second))];
    }
}
