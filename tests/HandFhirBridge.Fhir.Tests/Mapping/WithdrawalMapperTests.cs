using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using HandFhirBridge.Assessment.Instruments;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Serialization;

namespace HandFhirBridge.Fhir.Tests.Mapping;

/// <summary>
/// A withdrawn session against R4's recipe (http://hl7.org/fhir/R4/diagnosticreport.html, notes): report and Observations become
/// entered-in-error, conclusion and narrative say that the report was withdrawn, and may give the reason.
/// </summary>
public sealed class WithdrawalMapperTests
{
    private const string Reason = "Tested the wrong patient: <twin> & sister.";

    private static readonly Withdrawal Decided = new(
        SessionKeys.Of(Samples.Repeated), 2, 1, new string('a', 64), Reason, "R. Okafor", new(2026, 7, 2, 9, 0, 0, TimeSpan.FromHours(2)));

    private static readonly ReadOnlyMemory<byte> Statement = WithdrawalStatement.Write(Decided);

    private readonly Bundle standing = Mapped.Map(Samples.Repeated);
    private readonly Bundle withdrawn;

    public WithdrawalMapperTests() => withdrawn = WithdrawalMapper.Map(standing, Decided, Statement);

    [Fact]
    public void Map_EveryResultAndReport_IsEnteredInError()
    {
        withdrawn.All<Observation>().ShouldAllBe(o => o.Status == ObservationStatus.EnteredInError);
        withdrawn.Only<DiagnosticReport>().Status.ShouldBe(DiagnosticReport.DiagnosticReportStatus.EnteredInError);
        withdrawn.Only<QuestionnaireResponse>().Status.ShouldBe(QuestionnaireResponse.QuestionnaireResponseStatus.EnteredInError);
        withdrawn.All<Observation>().Count().ShouldBe(standing.All<Observation>().Count());
    }

    // R4 extension-event-statusReason: "Captures the reason for the current state"; it may stand on Observation and DiagnosticReport.
    [Fact]
    public void Map_ReportAndResults_GiveTheReasonInWords()
    {
        IEnumerable<DomainResource> all = [withdrawn.Only<DiagnosticReport>(), .. withdrawn.All<Observation>()];
        all.ShouldAllBe(r => r.GetExtensionValue<CodeableConcept>("http://hl7.org/fhir/StructureDefinition/event-statusReason")!.Text == Reason);
        var conclusion = withdrawn.Only<DiagnosticReport>().Conclusion.ShouldNotBeNull();
        conclusion.ShouldStartWith("WITHDRAWN");
        conclusion.ShouldContain(Reason);
        conclusion.ShouldContain("R. Okafor on 2026-07-02 09:00 +02:00");
    }

    [Fact]
    public void Map_Narratives_SayWithdrawnAndShowNoTime()
    {
        var times = Samples.Repeated.Trials.Where(t => t.Seconds is not null).Select(t => $"{t.Seconds!.Value.ToString(System.Globalization.CultureInfo.InvariantCulture)} s").ToList();
        times.ShouldContain(time => standing.Only<DiagnosticReport>().Text!.Div!.Contains(time, StringComparison.Ordinal));
        foreach (var resource in withdrawn.All<DomainResource>().Where(r => r is not Device))
        {
            var narrative = resource.Text?.Div.ShouldNotBeNull() ?? "";
            narrative.ShouldContain("WITHDRAWN");
            narrative.ShouldContain("Tested the wrong patient: &lt;twin&gt; &amp; sister.");
            times.ShouldAllBe(time => !narrative.Contains(time, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Map_Values_StayDigitForDigitAndAtTheirPlace()
    {
        static IEnumerable<(string, string?)> Values(Bundle bundle) => bundle.All<Observation>().Select(o => (o.Id!, o.Value is null ? null : o.Value.ToJson()));
        Values(withdrawn).ShouldBe(Values(standing));
        withdrawn.Only<QuestionnaireResponse>().Item.Count.ShouldBe(standing.Only<QuestionnaireResponse>().Item.Count);
    }

    // R4 valueset-provenance-activity-type has NULLIFY of v3-DataOperation: "treat as though it never existed".
    [Fact]
    public void Map_Provenance_IsANewOneThatSaysWhoAndWhy()
    {
        var provenance = withdrawn.Only<Provenance>();
        provenance.Id.ShouldNotBe(standing.Only<Provenance>().Id);
        provenance.Activity!.Coding.Single().Code.ShouldBe("NULLIFY");
        provenance.Reason.Single().Text.ShouldBe(Reason);
        provenance.Agent.Single(a => a.Type!.Coding.Single().Code == "performer").Who.Display.ShouldBe("R. Okafor");
        provenance.Target.Count.ShouldBe(standing.Only<Provenance>().Target.Count);
        provenance.Entity.Single().What.Display.ShouldBe("sha-256:" + Convert.ToHexStringLower(SHA256.HashData(Statement.Span)));
    }

    [Fact]
    public void Map_WithdrawnSession_PassesOurProfiles() =>
        SessionValidator.Shared.Validate(withdrawn).Where(p => p.Severity == Assessment.Problems.Severity.Error).ShouldBeEmpty();

    [Theory]
    [InlineData("stopped")]
    [InlineData("declined")]
    [InlineData("corrected")]
    public void Map_OtherSessions_PassOurProfilesToo(string which)
    {
        var session = which switch
        {
            "stopped" => Samples.Stopped("writing", Hand.Left),
            "declined" => Samples.Without("writing", Hand.Left, TrialOutcome.Declined, "Tired."),
            _ => Samples.Clean with { Revision = 2 },
        };
        var decided = Decided with { Session = SessionKeys.Of(session), Revision = session.Revision + 1, Withdrawn = session.Revision };

        var bundle = WithdrawalMapper.Map(Mapped.Map(session), decided, WithdrawalStatement.Write(decided));

        SessionValidator.Shared.Validate(bundle).Where(p => p.Severity == Assessment.Problems.Severity.Error).ShouldBeEmpty();
        bundle.Only<DiagnosticReport>().GetExtensionValue<PositiveInt>(Extensions.SessionRevision)!.Value.ShouldBe(session.Revision + 1);
    }

    [Fact]
    public void Map_AttachedPage_IsDetachedAndNamed()
    {
        standing.Only<DiagnosticReport>().PresentedForm.Add(new Attachment { ContentType = "application/pdf", Title = "Report of 1 July" });

        var report = WithdrawalMapper.Map(standing, Decided, Statement).Only<DiagnosticReport>();

        report.PresentedForm.ShouldBeEmpty();
        report.Text!.Div!.ShouldContain("Report of 1 July");
    }

    [Fact]
    public void Map_Session_IsNotChangedItself()
    {
        var before = standing.ToJson();
        _ = WithdrawalMapper.Map(standing, Decided, Statement);
        standing.ToJson().ShouldBe(before);
    }

    [Fact]
    public void Write_Statement_NamesWhatIsWithdrawnByWhomAndWhy()
    {
        using var statement = JsonDocument.Parse(Statement);
        var root = statement.RootElement;
        root.GetProperty("reason").GetString().ShouldBe(Reason);
        root.GetProperty("by").GetString().ShouldBe("R. Okafor");
        root.GetProperty("withdraws").GetProperty("revision").GetInt32().ShouldBe(1);
        Encoding.UTF8.GetString(WithdrawalStatement.Write(Decided).Span).ShouldBe(Encoding.UTF8.GetString(Statement.Span));
    }

    [Fact]
    public void Read_WithdrawnSession_IsNoSessionAndSaysWhy()
    {
        var read = new SessionResources(InstrumentLibrary.Embedded, TimeProvider.System).Read([withdrawn]);

        read.Value.ShouldBeNull();
        var problem = read.Problems.ShouldHaveSingleItem();
        problem.Code.ShouldBe("HFB3208");
        problem.Message.ShouldContain("withdrawn");
        problem.Message.ShouldContain(Reason);
    }

    // An attempt that a correction took out stands beside the session; one that belongs to it and is marked leaves a gap.
    [Fact]
    public void Read_AttemptEnteredInErrorThatBelongsToTheSession_IsNotPassedOver()
    {
        standing.All<Observation>().Single(o => o.Identifier.Any(i => i.System == IdentifierSystems.Attempt)).Status = ObservationStatus.EnteredInError;

        var read = new SessionResources(InstrumentLibrary.Embedded, TimeProvider.System).Read([standing]);

        read.Problems.ShouldContain(p => p.Code == "HFB3203");
    }
}
