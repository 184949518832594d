using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Norms;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Delivery.Identity;
using HandFhirBridge.Delivery.Ledger;
using HandFhirBridge.Delivery.Targets;
using HandFhirBridge.Fhir.Extraction;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Validation;
using HandFhirBridge.Outcomes.Deidentification;
using HandFhirBridge.Outcomes.Gather;
using HandFhirBridge.Outcomes.Rows;
using HandFhirBridge.Outcomes.Views;
using HandFhirBridge.Service.Charts;
using HandFhirBridge.Service.Outcomes;
using HandFhirBridge.Service.Output;
using HandFhirBridge.Service.Pipeline;
using HandFhirBridge.Service.Tests.Support;
using Hl7.Fhir.Model;
using Hl7.Fhir.Utility;

namespace HandFhirBridge.Service.Tests.Problems;

/// <summary>The tables of expected failures, all together.</summary>
public sealed class ProblemTableTests
{
    private static readonly ImmutableArray<ProblemKind> Kinds =
    [
        .. IntakeProblems.All, .. NormProblems.All, .. ReadingProblems.All, .. ExtractionProblems.All, .. ValidationProblems.All, .. DeliveryProblems.All,
        .. IdentityProblems.All, .. LedgerProblems.All, .. ServiceProblems.All, .. ChartProblems.All,
        .. ViewProblems.All, .. RowProblems.All, .. GatherProblems.All, .. DeidentificationProblems.All, .. SummaryProblems.All,
    ];

    [Fact]
    public void All_Codes_AreUniqueAndWellFormed()
    {
        Kinds.Select(k => k.Code).ShouldBeUnique();
        Kinds.ShouldAllBe(k => k.Code.Length == 7 && k.Code.StartsWith("HFB") && k.Code.Skip(3).All(char.IsAsciiDigit));
    }

    [Fact]
    public void All_Rows_StandInTheDocumentation()
    {
        var documented = File.ReadAllText(Path.Combine(Repository.Root, "docs", "errors.md"));

        Kinds.Select(k => k.Code).Where(code => !documented.Contains($"| {code} |", StringComparison.Ordinal)).ShouldBeEmpty();
    }

    // R4 valueset-issue-type: the codes an OperationOutcome may carry.
    [Fact]
    public void All_IssueTypes_AreCodesOfFhir() =>
        Kinds.ShouldAllBe(k => EnumUtility.ParseLiteral<OperationOutcome.IssueType>(k.IssueType, false) != null);

    [Fact]
    public void All_Sentences_AreThereToBeRead() =>
        Kinds.ShouldAllBe(k => k.Title.Length > 0 && k.Remedy.EndsWith('.') && k.HttpStatus >= 200 && k.HttpStatus < 600);

    [Fact]
    public void OutcomeOf_AProblem_CarriesCodeSentencePlaceAndRemedy()
    {
        var problem = ServiceProblems.UnknownSite.At("$.site", "The site \"x\" is not one this service works for.", "x");

        var issue = OutcomeResource.Of([problem]).Issue.ShouldHaveSingleItem();

        issue.Details!.Coding.ShouldHaveSingleItem().Code.ShouldBe("HFB6001");
        issue.Details!.Text.ShouldBe(problem.Message);
        issue.Expression.ShouldBe(["$.site"]);
        issue.Diagnostics!.ShouldContain(problem.Remedy);
        OutcomeResource.StatusOf([problem]).ShouldBe(422);
    }
}
