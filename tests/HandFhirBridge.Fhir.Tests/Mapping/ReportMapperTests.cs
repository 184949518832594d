using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Mapping;

public sealed class ReportMapperTests
{
    private readonly Bundle bundle = Mapped.Map(Samples.Clean);
    private readonly DiagnosticReport report;

    public ReportMapperTests() => report = bundle.Only<DiagnosticReport>();

    // R4 diagnosticreport.html#status: final when complete and verified; valueset-diagnostic-service-sections: OT.
    [Fact]
    public void Map_Report_IsFinalOccupationalTherapy()
    {
        report.Status.ShouldBe(DiagnosticReport.DiagnosticReportStatus.Final);
        report.Category.Single().Coding.Single().ShouldSatisfyAllConditions(
            c => c.System.ShouldBe("http://terminology.hl7.org/CodeSystem/v2-0074"), c => c.Code.ShouldBe("OT"));
        report.Code.Coding.Single().Code.ShouldBe("seven-task-report");
        (((Period)report.Effective!).Start, ((Period)report.Effective).End).ShouldBe(("2026-06-16T09:00:00+02:00", "2026-06-16T09:20:44+02:00"));
        report.Issued.ShouldBe(Mapped.Issued);
    }

    // R4 diagnosticreport.html#result: observations of the report; many viewers do not follow hasMember, so all are listed.
    [Fact]
    public void Map_Results_ArePanelsTotalsTrialsAndHandedness()
    {
        var results = report.Result.Select(r => bundle.Entry.Single(e => e.FullUrl == r.Reference).Resource).Cast<Observation>().ToList();
        results.Count.ShouldBe(2 + 4 + 14 + 1);
        results.ShouldBeUnique();
        results.Select(o => o.Code.Coding.Single().Code).Take(2).ShouldBe(["panel-left", "panel-right"]);
    }

    // R4 extension-workflow-supportingInfo is defined for DiagnosticReport among others; R4 has no element for it.
    [Fact]
    public void Map_SupportingInfo_IsTheSetUp() =>
        report.GetExtensionValue<ResourceReference>("http://hl7.org/fhir/StructureDefinition/workflow-supportingInfo")!.Reference
            .ShouldBe($"urn:uuid:{bundle.Only<QuestionnaireResponse>().Id}");

    [Fact]
    public void Map_Norms_AreNamedOnceEach()
    {
        var sources = report.Extension.Where(e => e.Url == Extensions.NormSource).ToList();
        sources.ShouldHaveSingleItem().Extension.Select(e => e.Url).ShouldBe(["normSet", "version", "source", "evidence", "demonstrationOnly"]);
    }

    [Fact]
    public void Map_PeopleAndOrder_AreNamed()
    {
        report.Performer.Select(p => p.Type).ShouldBe(["Practitioner", "Organization"]);
        report.Performer[1].Identifier!.ShouldSatisfyAllConditions(
            i => i.System.ShouldBe(IdentifierSystems.Site), i => i.Value.ShouldBe("harbour-hand-clinic"));
        report.ResultsInterpreter.Single().Identifier!.Value.ShouldBe("HHC-T-03");
        report.BasedOn.Single().Identifier!.Value.ShouldBe("O-2026-417");
        report.Encounter!.Identifier!.Value.ShouldBe("E-20260616-417");
    }

    [Fact]
    public void Map_SiteInDirectory_NamesTheClinic()
    {
        var clinic = new SiteOrganization(new BusinessIdentifier("https://registry.example/org", "4711"), "Harbour Hand Clinic");
        var known = Mapped.Map(Samples.Clean, options: Mapped.Options with
        {
            Sites = new SiteDirectory(System.Collections.Immutable.ImmutableDictionary<string, SiteOrganization>.Empty.Add("harbour-hand-clinic", clinic)),
        });
        var performer = known.Only<DiagnosticReport>().Performer[1];
        (performer.Identifier!.Value, performer.Display).ShouldBe(("4711", "Harbour Hand Clinic"));
        known.Only<Provenance>().Agent.ShouldAllBe(a => a.OnBehalfOf!.Identifier!.Value == "4711");
    }

    [Fact]
    public void Map_NoOrderNoEncounter_LeavesThemOut()
    {
        var without = Mapped.Map(Samples.Clean with { Order = null, Encounter = null }).Only<DiagnosticReport>();
        without.BasedOn.ShouldBeEmpty();
        without.Encounter.ShouldBeNull();
    }
}
