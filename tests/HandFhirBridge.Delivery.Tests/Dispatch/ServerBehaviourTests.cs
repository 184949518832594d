using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>However a server behaves, the session is there once, or it is not and a person is told.</summary>
public sealed class ServerBehaviourTests : TargetTests
{
    public static TheoryData<string> Names => [.. ServerBehaviours.All.Select(b => b.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task Deliver_ServerThatBehavesSo_KeepsTheSessionOnceOrNotAtAll(string server)
    {
        var behaviour = ServerBehaviours.All.Single(b => b.Name == server);
        behaviour.Script(Target);

        var entry = await DeliverToTheEndAsync();

        var attempt = await Bridge.LastAttemptAsync(Session);
        (entry.State, entry.ProblemCode, attempt.Rung).ShouldBe((behaviour.State, behaviour.Code, behaviour.Rung), attempt.Answer);
        if (entry.State == DeliveryState.Delivered)
        {
            Live().ShouldBe(Expected(behaviour.Form), ignoreOrder: true, attempt.Answer);
            Target.Record.Stored.Values.ShouldAllBe(r => !r.ToJsonString().Contains("urn:uuid:"));
        }
        else if (entry.State == DeliveryState.Failed && entry.ProblemCode != "HFB4005")
        {
            Live().ShouldBeEmpty();
        }
        else
        {
            Live().ShouldBeUnique();
        }
    }

    /// <summary>Identifiers of what a reader takes for valid.</summary>
    private List<string> Live() =>
    [
        .. Target.Record.Stored.Values
            .Where(r => (string)r["resourceType"]! is "Observation" or "DiagnosticReport" or "QuestionnaireResponse" or "DocumentReference")
            .Where(r => r["status"] is not { } status || (string)status! != "entered-in-error")
            .Where(r => r["identifier"] is not null && (string)r["id"]! != "copy")
            .Select(Identifier),
    ];

    private List<string> Expected(KeptForm form)
    {
        var session = JsonNode.Parse(Session.Bundle.Span)!["entry"]!.AsArray().Select(e => e!["resource"]!.AsObject()).ToLookup(r => (string)r["resourceType"]!);
        return
        [
            .. session["Observation"].Where(_ => form != KeptForm.Document).Select(Identifier),
            .. session["DiagnosticReport"].Concat(session["QuestionnaireResponse"]).Where(_ => form == KeptForm.Whole).Select(Identifier),
            .. form == KeptForm.Whole ? Array.Empty<string>() : ["https://handfhirbridge.example/identifier/document|north-clinic/S-1/1"],
        ];
    }

    private static string Identifier(JsonObject resource)
    {
        var identifier = resource["identifier"] is JsonArray list ? list[0]! : resource["identifier"]!;
        return $"{identifier["system"]}|{identifier["value"]}";
    }
}
