using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>Rung 3 where the target takes updates under our ids, and batches but no transactions (R4 http.html#transaction).</summary>
public sealed class WriteBatchTests : TargetTests
{
    public WriteBatchTests() => Target.Capabilities = ScriptedTarget.Statement(updateCreate: true, transaction: false);

    [Fact]
    public async Task Deliver_WritesInWaves_EachAfterWhatItRefersTo()
    {
        var unknown = new List<string>();
        Target.OnWrite = (sent, usual) =>
        {
            unknown.AddRange(References(sent.Body!).Where(reference => !reference.StartsWith("Patient/", StringComparison.Ordinal) && !Target.Record.Stored.ContainsKey(reference)));
            return usual();
        };

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 0);
        unknown.ShouldBeEmpty();
        Target.Writes.Count.ShouldBe(Entries(Session));
        Target.Requests.Count.ShouldBeLessThan(Entries(Session) / 2);
    }

    [Fact]
    public async Task Deliver_OneOfABatchFails_IsWrittenAloneAndTheOthersOnlyOnce()
    {
        var failed = 0;
        Target.OnWrite = (sent, usual) => sent.Type == "Observation" && failed++ == 2 ? ScriptedTarget.Outcome(409, "conflict", "Busy") : usual();

        await DeliverToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 0);
        Target.Writes.Count.ShouldBe(Entries(Session) + 1);
        Target.Record.Writes.ShouldBe(Entries(Session));
    }

    [Fact]
    public async Task Deliver_OneOfABatchRefusedForGood_TakesTheRestBack()
    {
        Target.OnWrite = (sent, usual) => sent.Type == "DiagnosticReport" ? ScriptedTarget.Outcome(422, "processing", "Not here") : usual();

        (await DeliverToTheEndAsync()).ProblemCode.ShouldBe("HFB4019");

        Target.Record.Stored.Values.Where(r => (string?)r["resourceType"] == "Observation").ShouldAllBe(r => (string?)r["status"] == "entered-in-error");
    }

    [Fact]
    public async Task Deliver_BatchesDeclaredAndRefused_WritesSinglyAndAsksForNoOther()
    {
        Target.OnBatch = (_, _) => ScriptedTarget.Outcome(400, "not-supported", "No batches");

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 0);
        Target.Batches.Count.ShouldBe(1);
        Target.Writes.Count.ShouldBe(Entries(Session));
    }

    [Fact]
    public async Task Deliver_AnswerToABatchLost_WritesNothingTwice()
    {
        var lost = false;
        Target.OnBatch = (_, usual) =>
        {
            var (answer, wasLost) = (usual(), lost);
            lost = true;
            return wasLost ? answer : ScriptedTarget.Answer(504, "Gateway Timeout");
        };

        (await DeliverToTheEndAsync()).State.ShouldBe(DeliveryState.Delivered, (await Bridge.LastAttemptAsync(Session)).Answer);

        Target.Record.Stored.Count.ShouldBe(Entries(Session));
    }

    private static IEnumerable<string> References(JsonNode? node) => node switch
    {
        JsonArray list => list.SelectMany(References),
        JsonObject element => element.SelectMany(member => member.Key == "reference" ? [(string)member.Value!] : References(member.Value)),
        _ => [],
    };
}
