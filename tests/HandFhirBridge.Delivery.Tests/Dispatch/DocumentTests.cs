using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Tests.Servers;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Delivery.Tests.Dispatch;

/// <summary>Rungs 4 and 5: the report as a document.</summary>
public sealed class DocumentTests : TargetTests
{
    public DocumentTests() => Target.Capabilities = ScriptedTarget.Statement(updateCreate: false, transaction: false, types: ["Observation", "DocumentReference"]);

    // US Core 6.1.0, profile DocumentReference: status, type, category, subject and content.attachment with contentType and
    // data or url are mandatory; identifier, date, author, format, context.encounter and context.period must be supported.
    // https://hl7.org/fhir/us/core/STU6.1/StructureDefinition-us-core-documentreference.html
    [Fact]
    public async System.Threading.Tasks.Task Document_OfASession_HasWhatUsCoreAsksFor()
    {
        await Bridge.DeliverAsync(Session);

        var document = Parsed(Documents().ShouldHaveSingleItem());
        document.Status.ShouldBe(DocumentReferenceStatus.Current);
        document.DocStatus.ShouldBe(CompositionStatus.Final);
        document.Type!.Coding.ShouldHaveSingleItem().Code.ShouldBe("28578-3");
        document.Category.ShouldHaveSingleItem().Coding.ShouldHaveSingleItem().Code.ShouldBe("clinical-note");
        document.Subject!.Reference.ShouldBe("Patient/chart-1");
        document.Date.ShouldNotBeNull();
        document.Author.ShouldNotBeEmpty();
        document.Context!.Period!.Start.ShouldStartWith("2026-03-02T09:05:00+01:00");
        document.Content.ShouldHaveSingleItem().Format!.Code.ShouldNotBeNullOrEmpty();
    }

    // R4 datatypes.html#Attachment: size in bytes before base64, hash SHA-1 in base64.
    [Fact]
    public async System.Threading.Tasks.Task Attachment_OfADocument_IsTheReportsPageWithSizeAndHash()
    {
        await Bridge.DeliverAsync(Session);

        var attachment = Parsed(Documents()[0]).Content[0].Attachment!;
        attachment.ContentType.ShouldBe("text/html");
        ((int)Documents()[0]["content"]![0]!["attachment"]!["size"]!).ShouldBe(attachment.Data!.Length);
#pragma warning disable CA5350 // R4 prescribes SHA-1.
        attachment.Hash.ShouldBe(SHA1.HashData(attachment.Data));
#pragma warning restore CA5350
        var page = Encoding.UTF8.GetString(attachment.Data);
        page.ShouldStartWith("<!DOCTYPE html>");
        page.ShouldContain("Lindqvist");
        page.ShouldContain("5.10");
    }

    [Fact]
    public async System.Threading.Tasks.Task Observations_OfASessionWithADocument_NameWhatIsNotThereByIdentifier()
    {
        await Bridge.DeliverAsync(Session);

        var trial = Target.Record.Stored.Values.First(r => r.ToJsonString().Contains("/identifier/trial", StringComparison.Ordinal) && r["derivedFrom"] is not null);
        var setup = trial["derivedFrom"]!.AsArray().Single(r => (string?)r!["type"] == "QuestionnaireResponse")!;
        setup["reference"].ShouldBeNull();
        ((string?)setup["identifier"]!["value"]).ShouldBe("north-clinic/S-1");
        Target.Record.Stored.Keys.ShouldAllBe(k => k.StartsWith("Observation/", StringComparison.Ordinal) || k.StartsWith("DocumentReference/", StringComparison.Ordinal));
    }

    // R4 documentreference-definitions.html: relatesTo replaces; status superseded for the one that was replaced.
    [Theory]
    [InlineData("Observation", "DocumentReference")]
    [InlineData("DocumentReference")]
    public async System.Threading.Tasks.Task Correction_OfADocument_ReplacesAndSupersedesTheEarlierOne(params string[] types)
    {
        Target.Capabilities = ScriptedTarget.Statement(updateCreate: false, transaction: false, types: types);
        await Bridge.DeliverAsync(Session);
        await Bridge.DeliverAsync(MappedSessions.Session(revision: 2, comment: "Corrected."));
        Session = MappedSessions.Session(revision: 3, comment: "Corrected again.");

        await DeliverToTheEndAsync();

        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered, (await Bridge.LastAttemptAsync(Session)).Answer);
        Documents().Select(d => (string)d["status"]!).ShouldBe(["superseded", "superseded", "current"]);
        var latest = Documents()[2];
        ((string?)latest["docStatus"]).ShouldBe("amended");
        ((string?)latest["relatesTo"]![0]!["code"]).ShouldBe("replaces");
        ((string?)latest["relatesTo"]![0]!["target"]!["reference"]).ShouldBe($"DocumentReference/{Documents()[1]["id"]}");
    }

    [Fact]
    public async System.Threading.Tasks.Task Correction_InterruptedBeforeTheEarlierDocumentWasMarked_IsFinished()
    {
        await Bridge.DeliverAsync(Session);
        var interrupted = false;
        Target.OnWrite = (sent, usual) =>
        {
            if (sent.Type != "DocumentReference" || sent.Method != "PUT" || interrupted)
            {
                return usual();
            }

            interrupted = true;
            return ScriptedTarget.Answer(503);
        };
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");

        await DeliverToTheEndAsync();

        interrupted.ShouldBeTrue();
        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered, (await Bridge.LastAttemptAsync(Session)).Answer);
        Documents().Select(d => (string)d["status"]!).ShouldBe(["superseded", "current"]);
    }

    [Fact]
    public async System.Threading.Tasks.Task Correction_TargetThatLetsNoDocumentBeChanged_StillSaysWhatItReplaces()
    {
        await Bridge.DeliverAsync(Session);
        Target.OnWrite = (sent, usual) => sent is { Type: "DocumentReference", Method: "PUT" } ? ScriptedTarget.Outcome(405, "not-supported", "No") : usual();
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");

        await DeliverToTheEndAsync();

        (await Bridge.EntryAsync(Session)).State.ShouldBe(DeliveryState.Delivered);
        (await Bridge.LastAttemptAsync(Session)).Answer.ShouldNotBeNull().ShouldContain("did not let earlier documents be marked superseded");
        Documents()[1]["relatesTo"].ShouldNotBeNull();
    }

    [Fact]
    public async System.Threading.Tasks.Task Correction_OfADocumentAtATargetThatNowTakesMore_StaysADocument()
    {
        await Bridge.DeliverAsync(Session);
        Target.Capabilities = ScriptedTarget.Statement(types: [.. ScriptedTarget.SessionTypes, "DocumentReference"]);
        Bridge.Clock.Advance(TimeSpan.FromDays(1));
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");

        await DeliverToTheEndAsync();

        (await Bridge.LastAttemptAsync(Session)).Rung.ShouldBe(4);
        Documents().Select(d => (string)d["status"]!).ShouldBe(["superseded", "current"]);
        Target.Transactions.ShouldBeEmpty();
        // The next new session is written by the best rung again.
        await Bridge.DeliverAsync(MappedSessions.Session("S-2"));
        Target.Transactions.Count.ShouldBe(1);
    }

    [Theory]
    [InlineData("Observation", "DocumentReference")]
    [InlineData("DocumentReference")]
    public async System.Threading.Tasks.Task Correction_OfAReportAtATargetThatNowTakesDocumentsOnly_IsForAPerson(params string[] types)
    {
        Target.Capabilities = ScriptedTarget.Statement();
        await Bridge.DeliverAsync(Session);
        Target.Capabilities = ScriptedTarget.Statement(transaction: false, types: types);
        Bridge.Clock.Advance(TimeSpan.FromDays(1));
        Session = MappedSessions.Session(revision: 2, comment: "Corrected.");

        var entry = await DeliverToTheEndAsync();

        (entry.State, entry.ProblemCode).ShouldBe((DeliveryState.Held, "HFB4021"));
        Target.Writes.ShouldBeEmpty();
    }

    private List<JsonObject> Documents() =>
        [.. Target.Record.Stored.Where(s => s.Key.StartsWith("DocumentReference/", StringComparison.Ordinal)).Select(s => s.Value)];

    private static DocumentReference Parsed(JsonObject document) => new FhirJsonDeserializer().Deserialize<DocumentReference>(document.ToJsonString());
}
