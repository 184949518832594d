using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Identity;

public sealed class RightPatientTests : TargetTests
{
    public static TheoryData<string, Action<JsonObject>> Charts => new()
    {
        { "upper case", c => c["name"]![0]!["family"] = "LINDQVIST" },
        { "white space around", c => c["name"]![0]!["family"] = " Lindqvist " },
        { "as maiden name, whose period ended", c => c["name"] = JsonNode.Parse(
            """[ { "use": "official", "family": "Aalto" }, { "use": "maiden", "family": "Lindqvist", "period": { "end": "1990" } } ]""") },
        { "name without a use", c => c["name"]![0]!.AsObject().Remove("use") },
        { "activity not stated", c => c.Remove("active") },
        { "said to live", c => c["deceasedBoolean"] = false },
        { "more identifiers", c => c["identifier"]!.AsArray().Insert(0, JsonNode.Parse("""{ "system": "urn:oid:1.2.3", "value": "9" }""")) },
        { "identifier whose period is open", c => c["identifier"]![0]!["period"] = new JsonObject { ["start"] = "2001", ["end"] = "2031" } },
        { "itself replaces another", c => c["link"] = JsonNode.Parse("""[ { "type": "replaces", "other": { "reference": "Patient/old" } } ]""") },
    };

    [Theory]
    [MemberData(nameof(Charts))]
    public async Task Deliver_ChartSurelyTheRightOne_IsWritten(string what, Action<JsonObject> change)
    {
        Target.Patients[0] = ScriptedTarget.Chart(change);

        (await DeliverToTheEndAsync()).State.ShouldBe(DeliveryState.Delivered, what);
    }

    [Fact]
    public async Task Deliver_NameInDecomposedForm_IsTheSameName()
    {
        // UAX #15: U+0041 U+030A is canonically equivalent to U+00C5.
        Session = MappedSessions.Session(familyName: "\u00C5lund");
        Target.Patients[0]["name"]![0]!["family"] = "A\u030Alund";

        (await DeliverToTheEndAsync()).State.ShouldBe(DeliveryState.Delivered);
    }

    // R4 patient.html#links and #merging: replaced-by leads to the record that is to be used.
    [Theory]
    [InlineData("Patient/chart-2")]
    [InlineData("{base}/Patient/chart-2")]
    public async Task Deliver_MergedChart_GoesToTheOneThatStandsForIt(string reference)
    {
        Target.Patients[0]["active"] = false;
        Target.Patients[0]["link"] = new JsonArray(new JsonObject
        {
            ["type"] = "replaced-by",
            ["other"] = new JsonObject { ["reference"] = reference.Replace("{base}", Target.Base.AbsoluteUri, StringComparison.Ordinal) },
        });
        Target.Patients.Add(ScriptedTarget.Chart(c =>
        {
            c["id"] = "chart-2";
            c["meta"]!["versionId"] = "3";
            c["identifier"]![0]!["value"] = "P-0777";
        }));

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.PatientId, entry.PatientVersion).ShouldBe((DeliveryState.Delivered, "chart-2", "3"));
        Target.Transactions[0].ToJsonString().ShouldContain("Patient/chart-2");
        Target.Transactions[0].ToJsonString().ShouldNotContain("Patient/chart-1");
    }

    [Fact]
    public async Task Deliver_MergedChartsThatBothCarryTheIdentifier_AreOne()
    {
        Target.Patients[0]["link"] = JsonNode.Parse("""[ { "type": "replaced-by", "other": { "reference": "Patient/chart-2" } } ]""");
        Target.Patients.Add(ScriptedTarget.Chart(c => c["id"] = "chart-2"));

        (await DeliverToTheEndAsync()).PatientId.ShouldBe("chart-2");
    }

    // R4 search.html#escaping: \ | , $ in a value are escaped; then the address is percent-encoded (RFC 3986).
    [Theory]
    [InlineData("urn:oid:1.2.3", "A|B", @"identifier=urn%3Aoid%3A1.2.3%7CA%5C%7CB")]
    [InlineData("urn:oid:1.2.3", "A,B$C", @"identifier=urn%3Aoid%3A1.2.3%7CA%5C%2CB%5C%24C")]
    [InlineData("urn:oid:1.2.3", "A&B+C#", @"identifier=urn%3Aoid%3A1.2.3%7CA%26B%2BC%23")]
    public void Token_SpecialCharacters_AreEscapedTwice(string system, string value, string expected) =>
        ("identifier=" + Delivery.Targets.FhirSearch.Token(system, value)).ShouldBe(expected);
}
