using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

public sealed class RefusalTests : TargetTests
{
    // RFC 9110 sections 15.5.1 to 15.5.21; R4 http.html#create names 400, 404 and 422.
    [Theory]
    [InlineData(400, "HFB4004", 2)]
    [InlineData(401, "HFB4008", 1)]
    [InlineData(403, "HFB4008", 1)]
    [InlineData(404, "HFB4004", 2)]
    [InlineData(405, "HFB4004", 2)]
    [InlineData(410, "HFB4004", 1)]
    [InlineData(413, "HFB4004", 1)]
    [InlineData(415, "HFB4004", 2)]
    [InlineData(422, "HFB4004", 2)]
    public async Task Transaction_Refused_IsADeadLetterAtOnce(int status, string code, int transactions)
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Outcome(status, "processing", "Not here");
        Target.OnWrite = (_, _) => ScriptedTarget.Outcome(status, "processing", "Not here");

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode, entry.Attempts).ShouldBe((DeliveryState.Failed, code, 1));
        Target.Transactions.Count.ShouldBe(transactions);
        (await Bridge.LastAttemptAsync(Session)).HttpStatus.ShouldBe(status);
    }

    [Theory]
    [InlineData("Bundle.entry[{0}].resource.valueQuantity.code", "Observation.valueQuantity.code")]
    [InlineData("Bundle.entry[{0}].resource.ofType(Observation).valueQuantity.code", "Observation.valueQuantity.code")]
    [InlineData("Bundle.entry[{0}].resource/*Observation/x*/.valueQuantity.code", "Observation.valueQuantity.code")]
    public async Task Transaction_RefusedForOneEntry_NamesTaskHandAndElement(string expression, string element)
    {
        Target.OnTransaction = (sent, _) => ScriptedTarget.Outcome(
            422, "code-invalid", "Unknown unit", string.Format(System.Globalization.CultureInfo.InvariantCulture, expression, IndexOf(sent!, "/card-turning/left")));

        await DeliverToTheEndAsync();

        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull()
            .ShouldContain($"trial card-turning left ({element}): code-invalid Unknown unit");
    }

    [Fact]
    public async Task Transaction_RefusedWithAPage_KeepsKindAndSizeOnly()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(403, "<html>Lindqvist may not</html>");

        await DeliverToTheEndAsync();

        var answer = (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull();
        answer.ShouldContain("text/html");
        answer.ShouldNotContain("Lindqvist");
    }

    [Fact]
    public async Task Reason_ServerQuotesThePatient_IsNotShownInTheList()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Outcome(403, "forbidden", "Lindqvist is out of bounds");

        var entry = await DeliverToTheEndAsync();

        entry.Reason.ShouldNotBeNull().ShouldNotContain("Lindqvist");
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("out of bounds");
    }

    // RFC 9110 section 15.4: a redirect of a POST would carry the patient's data to an address nobody configured.
    [Theory]
    [InlineData(301)]
    [InlineData(302)]
    [InlineData(307)]
    [InlineData(308)]
    public async Task Transaction_Redirected_IsNotFollowed(int status)
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Answer(status, "", "text/plain", ("Location", Target.Base + "/elsewhere"));

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Failed, "HFB4016"));
        Target.Requests.ShouldNotContain(r => r.Contains("elsewhere", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(401, DeliveryState.Failed, "HFB4008")]
    [InlineData(404, DeliveryState.Failed, "HFB4004")]
    [InlineData(503, DeliveryState.Accepted, "HFB4001")]
    [InlineData(200, DeliveryState.Accepted, "HFB4012")]
    public async Task PatientSearch_NotAnswered_WritesNothing(int status, DeliveryState state, string code)
    {
        Target.OnPatientSearch = (_, _) => ScriptedTarget.Answer(status, "<html>Please sign in</html>");

        var entry = await Bridge.DeliverAsync(Session);

        (entry.State, entry.ProblemCode).ShouldBe((state, code));
        Target.Transactions.ShouldBeEmpty();
    }

    [Fact]
    public async Task Retry_AfterTheCauseWasRemoved_Delivers()
    {
        Target.OnTransaction = (_, _) => ScriptedTarget.Outcome(403, "forbidden", "Not yet");
        await DeliverToTheEndAsync();
        Target.OnTransaction = null;

        (await Bridge.Ledger.RetryAsync(Session.Key)).ShouldBeTrue();
        await Bridge.RunToTheEndAsync();

        await ShouldBeRecordedOnceAsync(transactions: 2);
    }

    private static int IndexOf(System.Text.Json.Nodes.JsonObject transaction, string identifier) => transaction["entry"]!.AsArray().ToList()
        .FindIndex(e => e!["resource"]!["identifier"]?.ToJsonString().Contains(identifier, StringComparison.Ordinal) == true);
}
