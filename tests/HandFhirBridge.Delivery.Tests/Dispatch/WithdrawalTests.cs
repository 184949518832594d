using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>
/// Withdrawals and results that a correction dropped. R4 (http://hl7.org/fhir/R4/diagnosticreport.html, notes): report and
/// Observations of a withdrawn report become entered-in-error.
/// </summary>
public sealed class WithdrawalTests : TargetTests
{
    private static readonly string[] WithStatus = ["Observation", "DiagnosticReport", "QuestionnaireResponse", "DocumentReference"];

    [Theory]
    [InlineData(true, true)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    [InlineData(false, false)]
    public async Task Withdraw_DeliveredAndCorrectedSession_LeavesNothingThatReadsAsValid(bool updateCreate, bool transaction)
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate, transaction: transaction);
        await Bridge.DeliverAsync(Session);
        await Bridge.DeliverAsync(MappedSessions.Session(revision: 2, comment: "Corrected."));
        var places = Results().Keys.ToList();

        var entry = await WithdrawAsync();

        (entry.State, entry.Key.Revision).ShouldBe((DeliveryState.Delivered, 3));
        Results().Values.ShouldAllBe(status => status == "entered-in-error");
        Results().Keys.ShouldBe(places, ignoreOrder: true);
        Target.Record.Stored.Keys.Count(k => k.StartsWith("Provenance/", StringComparison.Ordinal)).ShouldBe(3);
    }

    // R4 documentreference-definitions.html: status and docStatus entered-in-error.
    [Theory]
    [InlineData("Observation", "DocumentReference")]
    [InlineData("DocumentReference")]
    public async Task Withdraw_SessionKeptAsADocument_MarksEveryDocument(params string[] types)
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false, transaction: false, types: types);
        await Bridge.DeliverAsync(Session);
        await Bridge.DeliverAsync(MappedSessions.Session(revision: 2, comment: "Corrected."));

        (await WithdrawAsync()).State.ShouldBe(DeliveryState.Delivered);

        Results().Values.ShouldAllBe(status => status == "entered-in-error");
        var documents = Target.Record.Stored.Where(s => s.Key.StartsWith("DocumentReference/", StringComparison.Ordinal)).Select(s => s.Value).ToList();
        documents.Count.ShouldBe(3);
        documents.ShouldAllBe(d => (string?)d["docStatus"] == "entered-in-error");
        System.Text.Encoding.UTF8.GetString(Convert.FromBase64String((string)documents[2]["content"]![0]!["attachment"]!["data"]!)).ShouldContain("WITHDRAWN");
    }

    [Fact]
    public async Task Withdraw_TargetThatLetsNoDocumentBeChanged_IsForAPerson()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false, transaction: false, types: ["DocumentReference"]);
        await Bridge.DeliverAsync(Session);
        Target.OnWrite = (sent, usual) => sent is { Type: "DocumentReference", Method: "PUT" } ? ScriptedTarget.Outcome(405, "not-supported", "No") : usual();

        (await WithdrawAsync()).State.ShouldBe(DeliveryState.Failed);
    }

    // 503 leaves open whether the write was carried out (RFC 9110 section 15.6.4).
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Withdraw_WhileTheSessionIsRetried_GoesOutAndIsNotFollowedByIt(bool stored)
    {
        Target.OnTransaction = (_, usual) =>
        {
            if (stored)
            {
                usual();
            }

            return ScriptedTarget.Answer(503);
        };
        (await Bridge.DeliverAsync(Session)).State.ShouldBe(DeliveryState.Accepted);
        Target.OnTransaction = null;

        var entry = await WithdrawAsync();
        Bridge.Clock.Advance(TimeSpan.FromDays(2));
        await Bridge.RunToTheEndAsync();

        entry.State.ShouldBe(DeliveryState.Delivered);
        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Superseded);
        Results().Values.ShouldAllBe(status => status == "entered-in-error");
        Target.Transactions.Count.ShouldBe(2);
    }

    [Fact]
    public async Task Withdraw_AnsweredByErrorsAtFirst_IsFinishedAndMarksAll()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false, transaction: false);
        await Bridge.DeliverAsync(Session);
        var writes = 0;
        Target.OnWrite = (_, usual) => ++writes % 7 == 0 ? ScriptedTarget.Answer(503) : usual();

        (await WithdrawAsync()).State.ShouldBe(DeliveryState.Delivered);

        writes.ShouldBeGreaterThan(25);
        Results().Values.ShouldAllBe(status => status == "entered-in-error");
    }

    // A server that runs a transaction as a batch may store the report of the withdrawal and not all results.
    [Fact]
    public async Task Withdraw_StoredInPartAndThenKilled_IsNotTakenForWhole()
    {
        await Bridge.DeliverAsync(Session);
        Target.OnTransaction = (sent, _) =>
        {
            Target.Record.Transact(sent!, index => index % 2 == 0 || index >= Entries(Session) - 2);
            return ScriptedTarget.Answer(504);
        };
        await Bridge.Ledger.WithdrawAsync("north-clinic", "S-1", Decided, MappedSessions.Withdraw, Cancellation);
        await Bridge.RunAsync();
        Results().Values.ShouldContain("final");
        Target.OnTransaction = null;

        await Bridge.RunToTheEndAsync();

        Results().Values.ShouldAllBe(status => status == "entered-in-error");
    }

    [Fact]
    public async Task Withdraw_HeldSession_WritesNothing()
    {
        Target.Patients.Clear();
        (await Bridge.DeliverAsync(Session)).State.ShouldBe(DeliveryState.Held);
        Target.Patients.Add(ScriptedTarget.Chart());

        var done = await Bridge.Ledger.WithdrawAsync("north-clinic", "S-1", Decided, MappedSessions.Withdraw, Cancellation);
        await Bridge.RunToTheEndAsync();

        done.IsSent.ShouldBeFalse();
        Target.Transactions.ShouldBeEmpty();
        Target.Record.Stored.ShouldBeEmpty();
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Correction_WithoutAnAttemptOfTheFirstRevision_MarksItEnteredInError(bool transaction)
    {
        Target.Capabilities = ScriptedTarget.Statement(transaction: transaction);
        await Bridge.DeliverAsync(MappedSessions.Session(repeated: true));
        Session = MappedSessions.Session(revision: 2, comment: "No bell rang.");
        await DeliverToTheEndAsync();

        var dropped = Attempt();
        ((string?)dropped["status"]).ShouldBe("entered-in-error");
        dropped["extension"]!.AsArray().Single(e => ((string)e!["url"]!).EndsWith("/event-statusReason", StringComparison.Ordinal))!["valueCodeableConcept"]!["text"]!
            .GetValue<string>().ShouldContain("Revision 2");
        ((string?)dropped["text"]!["div"]).ShouldNotBeNull().ShouldContain("ENTERED IN ERROR");
        Results().Values.Count(status => status == "entered-in-error").ShouldBe(1);

        // It stays so through further corrections, and comes back with one that has it again.
        await Bridge.DeliverAsync(MappedSessions.Session(revision: 3, comment: "Still none."));
        ((string?)Attempt()["status"]).ShouldBe("entered-in-error");
        await Bridge.DeliverAsync(MappedSessions.Session(revision: 4, comment: "There was one.", repeated: true));
        ((string?)Attempt()["status"]).ShouldBe("cancelled");
    }

    private static PersonDecision Decided => new("R. Okafor", "Wrong patient.", new(2026, 3, 3, 8, 0, 0, TimeSpan.Zero));

    private async Task<LedgerEntry> WithdrawAsync()
    {
        var done = await Bridge.Ledger.WithdrawAsync("north-clinic", "S-1", Decided, MappedSessions.Withdraw, Cancellation);
        await Bridge.RunToTheEndAsync();
        return (await Bridge.Ledger.FindAsync(done.Key!, Cancellation))!;
    }

    private Dictionary<string, string> Results() => Target.Record.Stored.Where(s => WithStatus.Contains(s.Key.Split('/')[0]))
        .ToDictionary(s => s.Key, s => (string)s.Value["status"]!);

    private JsonObject Attempt() => Target.Record.Stored.Values.Single(r => (string?)(r["identifier"] as JsonArray)?[0]?["system"] == "https://handfhirbridge.example/identifier/attempt");
}
