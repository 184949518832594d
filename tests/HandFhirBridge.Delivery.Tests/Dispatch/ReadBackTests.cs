using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>What was written is read back by one batch where the target takes them (R4 http.html#transaction), else by single requests.</summary>
public sealed class ReadBackTests : TargetTests
{
    public ReadBackTests() => Target.Capabilities["rest"]![0]!["interaction"]!.AsArray().Add(new JsonObject { ["code"] = "batch" });

    [Fact]
    public async Task Deliver_ToATargetThatTakesBatches_ReadsBackByOne()
    {
        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        Target.Batches.Count.ShouldBe(1);
        Target.Requests.Select(request => request.Split('?')[0]).ShouldBe(["GET /fhir/Patient", "GET /fhir/metadata", "POST /fhir/", "POST /fhir/"]);
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldEndWith("kept as they were sent.");
    }

    [Fact]
    public async Task Deliver_ReadBackByABatch_ComparesWhatCame()
    {
        Target.Record.OnKeep = resource => resource.Remove("referenceRange");

        await Bridge.DeliverAsync(Session);

        (await Bridge.EntryAsync(Session)).ProblemCode.ShouldBe("HFB4020");
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("(Observation.referenceRange): dropped");
    }

    [Theory]
    [InlineData("refused")]
    [InlineData("shorter")]
    [InlineData("search refused")]
    [InlineData("further pages")]
    [InlineData("no resource")]
    public async Task Deliver_BatchNotAnsweredAsOne_ReadsBackSinglyAndAsksForNoOther(string way)
    {
        Target.OnBatch = (_, usual) => Spoil(usual, way);

        await Bridge.DeliverAsync(Session);
        var next = MappedSessions.Session("S-2");
        await Bridge.DeliverAsync(next);

        Target.Batches.Count.ShouldBe(1);
        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered);
        (await Bridge.EntryAsync(next)).State.ShouldBe(DeliveryState.Delivered);
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldEndWith("kept as they were sent.");
    }

    [Fact]
    public async Task Deliver_BatchWithoutTheResults_LooksForEachAsBefore()
    {
        // A server that does not include what a report refers to.
        Target.OnResourceSearch = (sent, usual) => sent.Query.Contains("_include", StringComparison.Ordinal)
            ? ScriptedTarget.Json(ScriptedTarget.SearchSet(Target.Record.Search(sent.Path, sent.Query).Take(1)))
            : usual();

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("resources found afterwards");
    }

    private static WireMock.ResponseMessage Spoil(Func<WireMock.ResponseMessage> usual, string way)
    {
        if (way == "refused")
        {
            return ScriptedTarget.Outcome(400, "not-supported", "No batches");
        }

        var answer = JsonNode.Parse(usual().BodyData!.BodyAsString!)!.AsObject();
        var entries = answer["entry"]!.AsArray();
        switch (way)
        {
            case "shorter":
                entries.RemoveAt(entries.Count - 1);
                break;
            case "search refused":
                entries[0]!["response"]!["status"] = "400";
                break;
            case "further pages":
                entries[0]!["resource"]!["link"] = new JsonArray(new JsonObject { ["relation"] = "next", ["url"] = "DiagnosticReport?page=2" });
                break;
            default:
                entries[0]!.AsObject().Remove("resource");
                break;
        }

        return ScriptedTarget.Json(answer);
    }
}
