using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Identity;

/// <summary>Ways to end in the wrong chart, common practice, no source: nothing is written, and a person is told why.</summary>
public sealed class WrongPatientTraps : TargetTests
{
    private const string System = "https://north-clinic.example/patients";

    public static TheoryData<string, string, JsonObject[]> Charts => new()
    {
        { "nobody carries the identifier", "HFB4101", [] },
        { "two digits of the identifier swapped", "HFB4101", [Chart(c => Identifier(c)["value"] = "P-0010")] },
        { "same value in another system", "HFB4103", [Chart(c => Identifier(c)["system"] = "https://south-clinic.example/patients")] },
        { "system with a slash at its end", "HFB4103", [Chart(c => Identifier(c)["system"] = System + "/")] },
        { "identifier without a system", "HFB4103", [Chart(c => Identifier(c).Remove("system"))] },
        { "leading zero dropped", "HFB4103", [Chart(c => Identifier(c)["value"] = "P-001")] },
        { "leading zero added", "HFB4103", [Chart(c => Identifier(c)["value"] = "P-00001")] },
        { "other case", "HFB4103", [Chart(c => Identifier(c)["value"] = "p-0001")] },
        { "white space at the end", "HFB4103", [Chart(c => Identifier(c)["value"] = "P-0001 ")] },
        { "search matches a longer value", "HFB4103", [Chart(c => Identifier(c)["value"] = "P-00015")] },
        { "digits of another script", "HFB4103", [Chart(c => Identifier(c)["value"] = "P-٠٠٠١")] },
        { "two charts with one identifier", "HFB4102", [Chart(), Chart(c => c["id"] = "chart-2")] },
        { "twins: same name and day, both carry the identifier", "HFB4102", [Chart(), Chart(c =>
        {
            c["id"] = "chart-2";
            c["name"]![0]!["given"] = new JsonArray("Ida");
        })] },
        { "twin answers for the other's identifier", "HFB4103", [Chart(c => Identifier(c)["value"] = "P-0002")] },
        { "not active", "HFB4104", [Chart(c => c["active"] = false)] },
        { "died, as a flag", "HFB4105", [Chart(c => c["deceasedBoolean"] = true)] },
        { "died, as a date", "HFB4105", [Chart(c => c["deceasedDateTime"] = "2026-01-05")] },
        { "replaced by a chart of another person", "HFB4107", [Replaced("chart-1", "Patient/chart-2"), Other("chart-2", c => c["birthDate"] = "1975-01-01")] },
        { "replaced by two charts", "HFB4106", [Chart(c => c["link"] = new JsonArray(Link("Patient/chart-2"), Link("Patient/chart-3")))] },
        { "replaced by each other", "HFB4106", [Replaced("chart-1", "Patient/chart-2"), Other("chart-2", c => c["link"] = new JsonArray(Link("Patient/chart-1")))] },
        { "replaced by itself", "HFB4106", [Replaced("chart-1", "Patient/chart-1")] },
        { "replaced by a chart that is not there", "HFB4106", [Replaced("chart-1", "Patient/gone")] },
        { "replaced by a chart on another server", "HFB4106", [Replaced("chart-1", "https://elsewhere.example/fhir/Patient/chart-2")] },
        { "replaced by a chart that is not active", "HFB4104", [Replaced("chart-1", "Patient/chart-2"), Other("chart-2", c => c["active"] = false)] },
        { "replaced by a person who is no patient", "HFB4106", [Replaced("chart-1", "RelatedPerson/chart-2")] },
        { "born a day later", "HFB4107", [Chart(c => c["birthDate"] = "1961-04-13")] },
        { "day and month swapped", "HFB4107", [Chart(c => c["birthDate"] = "1961-12-04")] },
        { "born a hundred years earlier", "HFB4107", [Chart(c => c["birthDate"] = "1861-04-12")] },
        { "birth year only", "HFB4108", [Chart(c => c["birthDate"] = "1961")] },
        { "birth year and month only", "HFB4108", [Chart(c => c["birthDate"] = "1961-04")] },
        { "no birth date", "HFB4108", [Chart(c => c.Remove("birthDate"))] },
        { "similar family name", "HFB4109", [Chart(c => Name(c)["family"] = "Lindquist")] },
        { "family name without its accent", "HFB4109", [Chart(c => Name(c)["family"] = "Líndqvist")] },
        { "family and given name swapped", "HFB4109", [Chart(c =>
        {
            Name(c)["family"] = "Ada";
            Name(c)["given"] = new JsonArray("Lindqvist");
        })] },
        { "family name only as an old one", "HFB4109", [Chart(c => Name(c)["use"] = "old")] },
        { "family name only as a nickname", "HFB4109", [Chart(c => Name(c)["use"] = "nickname")] },
        { "family name no longer used", "HFB4109", [Chart(c => Name(c)["period"] = new JsonObject { ["end"] = "2019-05-01" })] },
        { "name as text alone", "HFB4109", [Chart(c => c["name"] = new JsonArray(new JsonObject { ["text"] = "Ada Lindqvist" }))] },
        { "identifier marked as old", "HFB4110", [Chart(c => Identifier(c)["use"] = "old")] },
        { "identifier whose period ended", "HFB4110", [Chart(c => Identifier(c)["period"] = new JsonObject { ["end"] = "2020" })] },
    };

    [Theory]
    [MemberData(nameof(Charts))]
    public async Task Deliver_ChartNotSurelyTheRightOne_WritesNothingAndIsHeld(string trap, string code, JsonObject[] charts)
    {
        ArgumentNullException.ThrowIfNull(charts);
        Target.Patients.Clear();
        Target.Patients.AddRange(charts);
        // A server that does not know the parameter, or compares loosely, answers with all it has.
        Target.OnPatientSearch = code == "HFB4101" ? null : (_, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet(
            Target.Patients.Where(p => code != "HFB4107" || charts.Length == 1 || (string)p["id"]! == "chart-1")));

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, code), trap);
        Target.Transactions.ShouldBeEmpty(trap);
        entry.Reason.ShouldNotBeNull().ShouldNotContainAny("Lindqvist", "P-0001", "1961");
    }

    [Fact]
    public async Task Deliver_SecondChartOnALaterPage_IsHeld()
    {
        Target.Patients.Add(ScriptedTarget.Chart(c => c["id"] = "chart-2"));
        Target.OnPatientSearch = (_, _) => Target.PatientSearches == 1
            ? ScriptedTarget.Json(ScriptedTarget.SearchSet([Target.Patients[0]], Target.Base + "/Patient?page=2"))
            : ScriptedTarget.Json(ScriptedTarget.SearchSet([Target.Patients[1]]));

        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4102");

        Target.Transactions.ShouldBeEmpty();
    }

    [Theory]
    [InlineData("https://elsewhere.example/fhir/Patient?page=2")]
    [InlineData("http://127.0.0.1:1/fhir/Patient?page=2")]
    public async Task Deliver_LaterPageOnAnotherServer_IsNotAskedForAndHeld(string next)
    {
        Target.OnPatientSearch = (_, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet(Target.Patients, next));

        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4103");

        Target.Transactions.ShouldBeEmpty();
    }

    [Fact]
    public async Task Deliver_PagesWithoutEnd_IsHeld()
    {
        Target.OnPatientSearch = (_, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet(Target.Patients, Target.Base + "/Patient?page=again"));

        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4103");

        Target.PatientSearches.ShouldBe(20);
    }

    [Fact]
    public async Task Deliver_TotalSaysThereAreMore_IsHeld()
    {
        Target.OnPatientSearch = (_, _) =>
        {
            var bundle = ScriptedTarget.SearchSet(Target.Patients);
            bundle["total"] = 2;
            return ScriptedTarget.Json(bundle);
        };

        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4103");
    }

    [Fact]
    public async Task Deliver_SecondMatchWithoutAnId_IsHeld()
    {
        Target.OnPatientSearch = (_, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet([Chart(), Chart(c => c.Remove("id"))]));

        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4103");
    }

    [Fact]
    public async Task Deliver_ChartChangedBetweenAttempts_IsComparedAnew()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(503);
        await Bridge.DeliverAsync(Session);
        Target.Patients[0]["birthDate"] = "1971-04-12";

        await Bridge.RunToTheEndAsync();

        (await Bridge.EntryAsync(Session)).ProblemCode.ShouldBe("HFB4107");
        Target.Transactions.Count.ShouldBe(1);
    }

    private static JsonObject Chart(Action<JsonObject>? change = null) => ScriptedTarget.Chart(change);

    private static JsonObject Identifier(JsonObject chart) => chart["identifier"]![0]!.AsObject();

    private static JsonObject Name(JsonObject chart) => chart["name"]![0]!.AsObject();

    private static JsonObject Link(string reference) =>
        new() { ["other"] = new JsonObject { ["reference"] = reference }, ["type"] = "replaced-by" };

    private static JsonObject Replaced(string id, string by) => Chart(c =>
    {
        c["id"] = id;
        c["active"] = false;
        c["link"] = new JsonArray(Link(by));
    });

    private static JsonObject Other(string id, Action<JsonObject> change) => Chart(c =>
    {
        c["id"] = id;
        Identifier(c)["value"] = "P-9999";
        change(c);
    });
}
