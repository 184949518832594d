using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class RungTests : TargetTests
{
    [Fact]
    public async Task Deliver_ClientIdsRefused_FallsToConditionalCreatesAndRecordsTheAnswer()
    {
        Target.OnTransaction = (sent, usual) => IsUpdate(sent!) ? ScriptedTarget.Outcome(405, "not-supported", "Client ids are not allowed") : usual();

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 2);
        var attempt = await Bridge.LastAttemptAsync(Session);
        attempt.Rung.ShouldBe(2);
        attempt.Answer.ShouldNotBeNull().ShouldContain("Rung 1 was refused: HTTP 405: not-supported Client ids are not allowed");
        Bridge.Target.Memory.LastFall.ShouldNotBeNull().Because.ShouldBe("HTTP 405 (not-supported)");
        (Bridge.Target.Memory.LastFall.From, Bridge.Target.Memory.LastFall.To)
            .ShouldBe((Delivery.Targets.Rung.TransactionOfUpdates, Delivery.Targets.Rung.TransactionOfConditionalCreates));
    }

    [Fact]
    public async Task Deliver_AfterAFall_GoesStraightToTheRungThatHeld()
    {
        Target.OnTransaction = (sent, usual) => IsUpdate(sent!) ? ScriptedTarget.Outcome(405, "not-supported", "No") : usual();
        await Bridge.DeliverAsync(Session);

        await Bridge.DeliverAsync(MappedSessions.Session("S-2"));

        Target.Transactions.Count.ShouldBe(3);
        IsUpdate(Target.Transactions[2]).ShouldBeFalse();
    }

    [Fact]
    public async Task Deliver_UpdateCreateNotOffered_WritesConditionalCreatesWithoutIds()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false);

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
        foreach (var entry in Target.Transactions[0]["entry"]!.AsArray())
        {
            ((string)entry!["request"]!["method"]!).ShouldBe("POST");
            entry["resource"]!["id"].ShouldBeNull();
            ((string)entry["request"]!["ifNoneExist"]!).ShouldMatch("^(identifier|_tag)=https%3A%2F%2F");
        }
    }

    // R4 http.html#transaction: references to a fullUrl of the transaction are rewritten by the server.
    [Fact]
    public async Task Deliver_ConditionalCreates_KeepReferencesThatTheServerRewrites()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false);

        await Bridge.DeliverAsync(Session);

        var report = Target.Record.Stored.Single(s => s.Key.StartsWith("DiagnosticReport/", StringComparison.Ordinal)).Value;
        report["result"]!.AsArray().ShouldAllBe(r => Target.Record.Stored.ContainsKey((string)r!["reference"]!));
    }

    [Fact]
    public async Task Deliver_UpdateCreateNotDeclared_PrefersWhatIs()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: null);

        await Bridge.DeliverAsync(Session);

        (await Bridge.LastAttemptAsync(Session)).Rung.ShouldBe(2);
    }

    [Theory]
    [InlineData(404)]
    [InlineData(403)]
    public async Task Deliver_NoCapabilityStatement_FindsOutByTrying(int status)
    {
        Target.OnMetadata = (_, _) => ScriptedTarget.Answer(status, "<html/>");

        await Bridge.DeliverAsync(Session);

        await ShouldBeRecordedOnceAsync(transactions: 1);
    }

    [Fact]
    public async Task Deliver_CapabilityStatementNotAvailable_IsTriedLater()
    {
        Target.OnMetadata = (_, _) => ScriptedTarget.Answer(503);

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Accepted, "HFB4001"));
        Target.Transactions.ShouldBeEmpty();
    }

    [Fact]
    public async Task Deliver_NothingOfferedThatCouldBeUsed_IsHeld()
    {
        Target.Capabilities = ScriptedTarget.Statement(transaction: false, types: "Appointment");

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4007"));
        Target.Transactions.ShouldBeEmpty();
    }

    [Theory]
    [InlineData("3.0.2")]
    [InlineData("5.0.0")]
    public async Task Deliver_OtherVersionOfFhir_IsHeld(string version)
    {
        Target.Capabilities = ScriptedTarget.Statement(version: version);

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4014"));
        Target.Transactions.ShouldBeEmpty();
    }

    [Fact]
    public async Task Capabilities_WithinADay_AreReadOnce()
    {
        await Bridge.DeliverAsync(Session);
        await Bridge.DeliverAsync(MappedSessions.Session("S-2"));
        Target.Requests.Count(r => r == "GET /fhir/metadata").ShouldBe(1);

        Bridge.Clock.Advance(TimeSpan.FromDays(1));
        await Bridge.DeliverAsync(MappedSessions.Session("S-3"));

        Target.Requests.Count(r => r == "GET /fhir/metadata").ShouldBe(2);
    }

    [Fact]
    public async Task Correction_OnEitherRung_UpdatesWhereTheFirstRevisionLies()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false);
        await Bridge.DeliverAsync(Session);
        var places = Target.Record.Stored.Keys.ToList();
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");
        Target.Capabilities = ScriptedTarget.Statement();
        Bridge.Clock.Advance(TimeSpan.FromDays(1));

        await Bridge.DeliverAsync(Session);

        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered, (await Bridge.LastAttemptAsync(Session)).Answer);
        // Only the Provenance of the correction is new.
        Target.Record.Stored.Keys.Except(places).ShouldHaveSingleItem().ShouldStartWith("Provenance/");
    }

    [Fact]
    public async Task Correction_FirstRevisionInAnotherChart_IsForAPerson()
    {
        await Bridge.DeliverAsync(Session);
        Target.Patients[0]["id"] = "chart-2";

        var entry = await Bridge.DeliverAsync(MappedSessions.Session(revision: 2, comment: "Corrected."));

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4015"));
        Target.Transactions.Count.ShouldBe(1);
    }

    [Fact]
    public async Task SharedDevice_SessionsOfManyPatientsAtOnce_IsCreatedOnce()
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false);
        for (var n = 2; n <= 6; n++)
        {
            var number = n;
            Target.Patients.Add(ScriptedTarget.Chart(c =>
            {
                c["id"] = $"chart-{number}";
                c["identifier"]![0]!["value"] = $"P-000{number}";
            }));
        }

        await Bridge.Ledger.AcceptAsync([.. Enumerable.Range(1, 6).Select(n => MappedSessions.Session($"S-{n}", patient: $"P-000{n}"))], Cancellation);
        await Task.WhenAll(Enumerable.Range(0, 3).Select(_ => Task.Run(Bridge.RunAsync)));

        (await Bridge.Ledger.CountAsync(Cancellation)).ByState[DeliveryState.Delivered].ShouldBe(6);
        Target.Record.Stored.Keys.Count(k => k.StartsWith("Device/", StringComparison.Ordinal)).ShouldBe(1);
    }

    private static bool IsUpdate(JsonObject transaction) => (string)transaction["entry"]![0]!["request"]!["method"]! == "PUT";
}
