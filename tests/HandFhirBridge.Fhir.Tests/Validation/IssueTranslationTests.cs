using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed class IssueTranslationTests
{
    [Theory]
    [InlineData("6007", "Terminology service failed while validating code 'x': not in hand", "HFB3022")]
    [InlineData("6007", "'x' is not in value set y.", "HFB3020")]
    [InlineData("4000", "Unable to resolve reference to extension 'x'.", "HFB3040")]
    [InlineData("4000", "Unable to resolve reference to profile 'x'.", "HFB3041")]
    [InlineData("1026", "Element does not match any slice.", "HFB3010")]
    [InlineData("7777", "Something new.", "HFB3090")]
    public void KindOf_Issue_IsTheKindOfItsNumberAndText(string number, string text, string code) =>
        IssueTranslation.KindOf(Issue(number, text, OperationOutcome.IssueSeverity.Error)).ShouldSatisfyAllConditions(
            found => found.Kind.Code.ShouldBe(code),
            found => found.Severity.ShouldBe(Severity.Error));

    [Fact]
    public void KindOf_PracticeOnly_IsAWarning() =>
        IssueTranslation.KindOf(Issue("1013", "A resource should have narrative.", OperationOutcome.IssueSeverity.Warning)).ShouldBe((ValidationProblems.PracticeNotFollowed, Severity.Warning));

    [Fact]
    public void KindOf_UnknownWarning_StaysAWarning() =>
        IssueTranslation.KindOf(Issue("7777", "Something new.", OperationOutcome.IssueSeverity.Warning)).Severity.ShouldBe(Severity.Warning);

    private static OperationOutcome.IssueComponent Issue(string number, string text, OperationOutcome.IssueSeverity severity) => new()
    {
        Severity = severity,
        Details = new CodeableConcept("http://hl7.org/fhir/dotnet-api-operation-outcome", number, text),
    };
}
