using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Identity;

/// <summary>Where the program must not decide, a person may.</summary>
public sealed class ChartChoiceTests : TargetTests
{
    private Action<TargetOptions> settings = _ => { };

    private ChartChoice Choice(string id = "chart-1") => new(id, new("R. Okafor", "Wristband and order seen; Lindqvist is the maiden name.", Bridge.Clock.GetUtcNow()));

    [Fact]
    public async Task Resolve_HeldSession_GoesToTheChosenChartAndKeepsWhoAndWhy()
    {
        Target.Patients[0]["name"]![0]!["family"] = "Halloran";
        (await Bridge.DeliverAsync(Session)).ProblemCode.ShouldBe("HFB4109");

        (await Bridge.Ledger.ResolveAsync(Session.Key, Choice(), Cancellation)).ShouldBeTrue();
        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
        (await Bridge.EntryAsync(Session)).PatientId.ShouldBe("chart-1");
        (await Bridge.Ledger.ReadDecisionsAsync(Session.Key, Cancellation)).ShouldHaveSingleItem()
            .ShouldBe(new(1, Bridge.Clock.GetUtcNow(), "R. Okafor", "resolve", "chart-1", "Wristband and order seen; Lindqvist is the maiden name."), "kept as decided");
    }

    public static TheoryData<string, string, Action<ScriptedTarget>> Troubles => new()
    {
        { "gone", "HFB4111", t => t.Patients.Clear() },
        { "not active since", "HFB4104", t => t.Patients[0]["active"] = false },
        { "replaced by one that is not there", "HFB4106", t => t.Patients[0]["link"] = Links("Patient/gone") },
        { "replaced by two", "HFB4106", t => t.Patients[0]["link"] = Links("Patient/chart-2", "Patient/chart-3") },
    };

    [Theory]
    [MemberData(nameof(Troubles))]
    public async Task Send_ChosenChartInTrouble_IsHeldAgain(string trouble, string code, Action<ScriptedTarget> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        Target.Patients[0]["birthDate"] = "1961-04-13";
        await Bridge.DeliverAsync(Session);
        await Bridge.Ledger.ResolveAsync(Session.Key, Choice(), Cancellation);
        change(Target);

        await Bridge.RunToTheEndAsync();

        (await Bridge.EntryAsync(Session)).ProblemCode.ShouldBe(code, trouble);
        Target.Transactions.ShouldBeEmpty();
    }

    [Fact]
    public async Task Send_ChosenChartReplacedSince_GoesToItsSuccessor()
    {
        Target.Patients[0]["birthDate"] = "1961-04-13";
        await Bridge.DeliverAsync(Session);
        await Bridge.Ledger.ResolveAsync(Session.Key, Choice(), Cancellation);
        Target.Patients[0]["active"] = false;
        Target.Patients[0]["link"] = Links("Patient/chart-2");
        Target.Patients.Add(ScriptedTarget.Chart(c => c["id"] = "chart-2"));

        await Bridge.RunToTheEndAsync();

        (await Bridge.EntryAsync(Session)).PatientId.ShouldBe("chart-2");
        Target.Record.Stored.Values.Where(r => r["subject"] is not null).ShouldAllBe(r => (string)r["subject"]!["reference"]! == "Patient/chart-2");
    }

    [Fact]
    public async Task Send_CorrectionAfterAChoice_GoesToTheSameChart()
    {
        Target.Patients[0]["birthDate"] = "1961-04-13";
        await Bridge.DeliverAsync(Session);
        await Bridge.Ledger.ResolveAsync(Session.Key, Choice(), Cancellation);
        await Bridge.RunToTheEndAsync();

        var entry = await Bridge.DeliverAsync(MappedSessions.Session(revision: 2, comment: "Corrected."));

        (entry.State, entry.PatientId).ShouldBe((DeliveryState.Delivered, "chart-1"));
    }

    [Fact]
    public async Task Resolve_AfterPartsWereWrittenIntoAnotherChart_WritesNothingIntoTheNext()
    {
        Target.OnTransaction = (_, usual) =>
        {
            usual();
            Target.Patients[0]["birthDate"] = "1961-04-13";
            return ScriptedTarget.Answer(504);
        };
        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4107");
        Target.Patients.Add(ScriptedTarget.Chart(c => c["id"] = "chart-2"));

        await Bridge.Ledger.ResolveAsync(Session.Key, Choice("chart-2"), Cancellation);
        await Bridge.RunToTheEndAsync();

        (await Bridge.EntryAsync(Session)).ProblemCode.ShouldBe("HFB4015");
        Target.Transactions.Count.ShouldBe(1);
    }

    [Fact]
    public async Task Resolve_SessionThatIsNotHeld_KeepsNothing()
    {
        await Bridge.DeliverAsync(Session);

        (await Bridge.Ledger.ResolveAsync(Session.Key, Choice("chart-9"), Cancellation)).ShouldBeFalse();

        (await Bridge.Ledger.ReadDecisionsAsync(Session.Key, Cancellation)).ShouldBeEmpty();
    }

    // R4 patient-operation-match.html: entry.search.score and the extension match-grade.
    [Fact]
    public async Task Match_EvenIfCertain_OnlyProposes()
    {
        settings = options => options.ProposePatients = true;
        Target.Patients[0]["birthDate"] = "1961-04-13";
        Target.OnWrite = (sent, _) => ScriptedTarget.Json(Matched(sent));

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4107"));
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldBe("The target proposes Patient/chart-7 (certain, score 0.99). A person decides.");
        Target.Transactions.ShouldBeEmpty();
        Target.Record.Stored.ShouldBeEmpty();
    }

    [Theory]
    [InlineData(404)]
    [InlineData(500)]
    public async Task Match_NotOffered_LeavesTheSessionHeldAllTheSame(int status)
    {
        settings = options => options.ProposePatients = true;
        Target.Patients.Clear();
        Target.OnWrite = (_, _) => ScriptedTarget.Answer(status);

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4101"));
    }

    [Fact]
    public async Task Deliver_NobodyCarriesTheIdentifier_CreatesNoChartUnlessTheSiteSaysSo()
    {
        Target.Patients.Clear();

        (await Bridge.DeliverAsync(Session)).ProblemCode.ShouldBe("HFB4101");

        Target.Writes.ShouldBeEmpty();
    }

    [Fact]
    public async Task Deliver_WhereTheSiteSaysSo_CreatesTheChartOnceAndUsesIt()
    {
        settings = options => options.CreatePatients = true;
        Target.Patients.Clear();
        Target.OnWrite = (sent, usual) =>
        {
            if (sent.Type != "Patient")
            {
                return usual();
            }

            var chart = sent.Body!.DeepClone().AsObject();
            chart["id"] = "new-chart";
            Target.Patients.Add(chart);
            return ScriptedTarget.Json(chart, 201);
        };

        var entry = await Bridge.DeliverAsync(Session);
        await Bridge.DeliverAsync(MappedSessions.Session("S-2"));

        (entry.State, entry.PatientId).ShouldBe((DeliveryState.Delivered, "new-chart"));
        Target.Writes.Where(w => w.Type == "Patient").ShouldHaveSingleItem().IfNoneExist.ShouldNotBeNull().ShouldStartWith("identifier=");
    }

    [Fact]
    public async Task Deliver_WhereTheSiteSaysSoAndTheSearchIsNotTrusted_CreatesNoChart()
    {
        settings = options => options.CreatePatients = true;
        Target.OnPatientSearch = (_, _) => ScriptedTarget.Json(ScriptedTarget.SearchSet([ScriptedTarget.Chart(c => c["identifier"]![0]!["value"] = "P-0002")]));

        (await Bridge.DeliverAsync(Session)).ProblemCode.ShouldBe("HFB4103");

        Target.Writes.ShouldBeEmpty();
    }

    protected override Bridge CreateBridge() => new(Target.Base, options => settings(options));

    private static JsonArray Links(params string[] references) => new([.. references.Select(reference => new JsonObject
    {
        ["other"] = new JsonObject { ["reference"] = reference },
        ["type"] = "replaced-by",
    })]);

    private static JsonObject Matched(SentRequest sent)
    {
        sent.Path.ShouldBe("Patient/$match");
        ((string?)sent.Body!["parameter"]![0]!["resource"]!["birthDate"]).ShouldBe("1961-04-12");
        return JsonNode.Parse("""
            { "resourceType": "Bundle", "type": "searchset", "entry": [ { "resource": { "resourceType": "Patient", "id": "chart-7" },
              "search": { "mode": "match", "score": 0.99,
                "extension": [ { "url": "http://hl7.org/fhir/StructureDefinition/match-grade", "valueCode": "certain" } ] } } ] }
            """)!.AsObject();
    }
}
