using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class RevisionTests
{
    private readonly Bundle first = Mapped.Map(Samples.Clean);
    private readonly Bundle second = Mapped.Map(
        Samples.Without("writing", Hand.Left, TrialOutcome.Void, "Wrong hand.") with { Revision = 2 });

    // R4 valueset-observation-status and valueset-diagnostic-report-status "corrected", valueset-questionnaire-answers-status "amended".
    [Fact]
    public void Map_Revision2_IsMarkedAsCorrected()
    {
        second.Only<DiagnosticReport>().Status.ShouldBe(DiagnosticReport.DiagnosticReportStatus.Corrected);
        second.Only<QuestionnaireResponse>().Status.ShouldBe(QuestionnaireResponse.QuestionnaireResponseStatus.Amended);
        second.Trial("writing", Hand.Right).Status.ShouldBe(ObservationStatus.Corrected);
        second.OfCode("panel-left").Status.ShouldBe(ObservationStatus.Corrected);
        second.Only<Provenance>().Activity!.Coding.Single().Code.ShouldBe("UPDATE");
        first.Only<Provenance>().Activity!.Coding.Single().Code.ShouldBe("CREATE");
        second.Only<DiagnosticReport>().GetExtensionValue<PositiveInt>(Extensions.SessionRevision)!.Value.ShouldBe(2);
        second.Only<DiagnosticReport>().Conclusion!.ShouldContain("Corrected: revision 2");
    }

    // What has no time has no corrected result either.
    [Fact]
    public void Map_Revision2_LeavesWhatHasNoTimeCancelled()
    {
        second.Trial("writing", Hand.Left).Status.ShouldBe(ObservationStatus.Cancelled);
        second.OfCode("seven-task-total-left").Status.ShouldBe(ObservationStatus.Cancelled);
    }

    // The same places are written again, so that nothing stands twice; only the provenance is a new one.
    [Fact]
    public void Map_Revision2_WritesTheSameResourcesAgain()
    {
        string[] Places(Bundle bundle) => [.. bundle.Entry.Where(e => e.Resource is not Provenance).Select(e => e.Request!.Url!)];
        Places(second).ShouldBe(Places(first));
        second.Only<Provenance>().Id.ShouldNotBe(first.Only<Provenance>().Id);
    }
}
