using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class DeliveryTests : TargetTests
{
    [Fact]
    public async Task Deliver_GoodServer_StoresEverythingOnceAndRemembersTheChart()
    {
        var entry = await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        (entry.PatientId, entry.PatientVersion).ShouldBe(("chart-1", "7"));
        Target.Record.Stored.ShouldContainKey($"DiagnosticReport/{entry.ReportId}");
        Target.Record.Writes.ShouldBe(Target.Record.Stored.Count);
        var attempt = await Bridge.LastAttemptAsync(Session);
        (attempt.Rung, attempt.HttpStatus, attempt.Status).ShouldBe((1, 200, AttemptStatus.Delivered));
    }

    [Fact]
    public async Task Deliver_SameSessionSubmittedTwice_IsOneDelivery()
    {
        await Bridge.DeliverAsync(Session);

        (await Bridge.Ledger.AcceptAsync([Session], Cancellation))[0].Outcome.ShouldBe(AcceptOutcome.AlreadyAccepted);
        await Bridge.RunAsync();

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Deliver_EveryReferenceToThePatient_HasAddressAndIdentifier()
    {
        await Bridge.DeliverAsync(Session);

        var references = All(Target.Transactions[0]).Where(o => o.Text("type") == "Patient" && o["identifier"] is JsonObject).ToList();
        references.Count.ShouldBeGreaterThan(20);
        references.ShouldAllBe(r => (string?)r["reference"] == "Patient/chart-1" && (string?)r["identifier"]!["value"] == "P-0001");
        All(Target.Transactions[0]).Where(o => o.Text("type") is "Practitioner" or "Organization").ShouldAllBe(r => r["reference"] == null);
    }

    [Fact]
    public async Task Deliver_Decimals_GoOutDigitForDigit()
    {
        await Bridge.DeliverAsync(Session);

        // The session holds 5.00 s with the left and 5.10 s with the right hand for writing; R4 datatypes, "decimal": precision counts.
        var values = All(Target.Transactions[0]).Where(o => o.Text("code") == "s" && o["value"] is not null).Select(o => o["value"]!.ToJsonString()).ToList();
        values.ShouldContain("5.00");
        values.ShouldContain("5.10");
    }

    [Fact]
    public async Task Deliver_HeaderSet_IsSentWithEachRequest()
    {
        using var bridge = new Bridge(Target.Base, options => options.Headers["X-Tenant"] = "north");

        await bridge.DeliverAsync(Session);

        Target.Tenants.ShouldAllBe(tenant => tenant == "north");
        Target.Tenants.Count.ShouldBe(Target.Requests.Count);
    }

    [Fact]
    public async Task Deliver_UnknownTargetName_IsHeld()
    {
        var entry = await Bridge.DeliverAsync(Session with { Target = "elsewhere" });

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4013"));
        Target.Requests.ShouldBeEmpty();
    }

    [Fact]
    public async Task Deliver_LedgerHoldsNoBundle_FailsAfterAFewTriesAndStopsNobody()
    {
        var broken = Session with { Key = Session.Key with { SessionId = "S-0" }, Bundle = "[]"u8.ToArray() };
        await Bridge.Ledger.AcceptAsync([broken, Session], Cancellation);

        await Bridge.RunToTheEndAsync();

        var entry = await Bridge.EntryAsync(broken);
        (entry.State, entry.ProblemCode, entry.Attempts).ShouldBe((DeliveryState.Failed, "HFB4017", 5));
        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered);
    }

    private static IEnumerable<JsonObject> All(JsonNode? node) => node switch
    {
        JsonObject element => element.SelectMany(child => All(child.Value)).Prepend(element),
        JsonArray list => list.SelectMany(All),
        _ => [],
    };
}
