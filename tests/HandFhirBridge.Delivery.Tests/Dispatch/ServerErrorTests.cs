using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using WireMock;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class ServerErrorTests : TargetTests
{
    [Fact]
    public async Task InternalServerError_EachTime_IsADeadLetterAfterFiveTries()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Outcome(500, "exception", "NullReference");

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode, entry.Attempts).ShouldBe((DeliveryState.Failed, "HFB4006", 5));
        Target.Transactions.Count.ShouldBe(5);
    }

    [Fact]
    public async Task InternalServerError_Once_IsDelivered()
    {
        Target.OnTransaction = (_, usual) => Target.Transactions.Count == 1 ? ScriptedTarget.Answer(500) : usual();

        await DeliverToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 2);
    }

    [Theory]
    [InlineData(409)]
    [InlineData(412)]
    public async Task Conflict_OnceWithNothingStored_IsTriedAgain(int status)
    {
        Target.OnTransaction = (_, usual) => Target.Transactions.Count == 1 ? ScriptedTarget.Outcome(status, "conflict", "Version") : usual();

        await DeliverToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 2);
    }

    [Theory]
    [InlineData(409)]
    [InlineData(412)]
    public async Task Conflict_WithEverythingStored_IsDelivered(int status)
    {
        Target.OnTransaction = (_, usual) =>
        {
            usual();
            return ScriptedTarget.Outcome(status, "conflict", "Exists");
        };

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    // R4 http.html#cond-update and #ccreate: 412 when the condition matches more than one resource.
    [Fact]
    public async Task Conflict_MoreThanOneMatch_IsForAPerson()
    {
        Target.OnTransaction = (sent, usual) =>
        {
            usual();
            var report = Target.Record.Stored.Single(s => s.Key.StartsWith("DiagnosticReport/", StringComparison.Ordinal));
            var copy = report.Value.DeepClone().AsObject();
            copy["id"] = "second-copy";
            Target.Record.Stored["DiagnosticReport/second-copy"] = copy;
            return ScriptedTarget.Outcome(412, "multiple-matches", "Two match");
        };

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4011"));
        Target.Transactions.Count.ShouldBe(1);
    }

    [Fact]
    public async Task Transaction_RunAsABatchAndStoredInPart_IsFinishedInTheSameAttempt()
    {
        Target.OnTransaction = (sent, _) => StoreEvenEntries(sent!);

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("HTTP 422 invalid Not this one");
        Target.Record.Stored.ShouldAllBe(s => !s.Value.ToJsonString().Contains("urn:uuid:"));
        Bridge.Target.Memory.Rung.ShouldBeNull();
    }

    [Fact]
    public async Task Transaction_StoredInPartAndTheRestNotTakenSinglyEither_IsTakenBack()
    {
        Target.OnTransaction = (sent, _) => StoreEvenEntries(sent!);
        Target.OnWrite = (sent, usual) => (string?)sent.Body!["status"] == "entered-in-error" ? usual() : ScriptedTarget.Outcome(422, "invalid", "Nor this");

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode, entry.Attempts).ShouldBe((DeliveryState.Failed, "HFB4019", 1));
        Target.Record.Stored.Where(s => s.Value["status"] is not null && !s.Key.StartsWith("Device/", StringComparison.Ordinal))
            .ShouldAllBe(s => (string)s.Value["status"]! == "entered-in-error");
    }

    [Fact]
    public async Task Transaction_StoredInPartAndNothingElseTaken_IsADeadLetterThatSaysWhatIsLeft()
    {
        Target.OnTransaction = (sent, _) => StoreEvenEntries(sent!);
        Target.OnWrite = (_, _) => ScriptedTarget.Outcome(422, "invalid", "Nor this");

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode, entry.Attempts).ShouldBe((DeliveryState.Failed, "HFB4005", 5));
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("Stored and not taken back");
    }

    [Fact]
    public async Task Transaction_ConfirmedWithFewerEntriesThanSent_IsLookedUp()
    {
        Target.OnTransaction = (sent, _) =>
        {
            var answer = Target.Record.Transact(sent!);
            answer["entry"]!.AsArray().RemoveAt(0);
            return ScriptedTarget.Json(answer);
        };

        await DeliverToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Theory]
    [InlineData("", "application/fhir+json")]
    [InlineData("<html>ok</html>", "text/html")]
    [InlineData("""{"resourceType":"OperationOutcome","issue":[]}""", "application/fhir+json")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction-res""", "application/fhir+json")]
    public async Task Transaction_StoredWithoutAUsableBody_IsLookedUp(string body, string type)
    {
        Target.OnTransaction = (_, usual) =>
        {
            usual();
            return ScriptedTarget.Answer(200, body, type);
        };

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Transaction_AnsweredByASignInPage_IsNotTakenForDelivered()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(200, "<html>Sign in</html>");

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Failed, "HFB4012"));
        Target.Record.Stored.ShouldBeEmpty();
    }

    [Fact]
    public async Task Transaction_AcceptedForLater_IsNotTakenForDelivered()
    {
        // RFC 9110 section 15.3.3: 202 says nothing of the outcome.
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(202, "", "text/plain");

        (await Bridge.DeliverAsync(Session)).State.ShouldBe(DeliveryState.Accepted);
    }

    private ResponseMessage StoreEvenEntries(JsonObject sent)
    {
        var stored = Target.Record.Transact(sent, index => index % 2 == 0)["entry"]!.AsArray();
        var entries = new JsonArray();
        for (var index = 0; index < sent["entry"]!.AsArray().Count; index++)
        {
            entries.Add(index % 2 == 0
                ? stored[index / 2]!.DeepClone()
                : JsonNode.Parse("""
                    { "response": { "status": "422 Unprocessable Entity", "outcome": { "resourceType": "OperationOutcome",
                      "issue": [ { "severity": "error", "code": "invalid", "diagnostics": "Not this one" } ] } } }
                    """));
        }

        return ScriptedTarget.Json(new JsonObject { ["resourceType"] = "Bundle", ["type"] = "batch-response", ["entry"] = entries });
    }
}
