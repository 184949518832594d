using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Tests.Mapping;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;
using Hl7.Fhir.Utility;
using static HandFhirBridge.Fhir.Validation.ValidationProblems;

namespace HandFhirBridge.Fhir.Tests.Validation;

public sealed class ValidationProblemsTests
{
    /// <summary>Kinds that no seeded mistake leads to, each with the test that does, or the reason why none can.</summary>
    private static readonly ProblemKind[] ReachedElsewhere =
    [
        NotFhirJson, // SessionValidatorTests
        EntryTwice, EntryEmpty, // SessionValidatorTests
        AnswerTooLong, AnswerMisplaced, // ResponseCheckerTests
        ValueSetNotInHand, // IssueTranslationTests: every value set bound is in hand, which BindingsTests checks
        PracticeNotFollowed, SliceNotAllowed, // IssueTranslationTests: what the core recommends is required here, and every list is open
        OtherFinding, // IssueTranslationTests: whatever a later version of the validator adds
    ];

    [Fact]
    public void All_Codes_AreUniqueAndOfTheirRange()
    {
        All.Select(kind => kind.Code).ShouldBeUnique();
        All.ShouldAllBe(kind => string.CompareOrdinal(kind.Code, "HFB3001") >= 0 && string.CompareOrdinal(kind.Code, "HFB3199") <= 0);
    }

    // FHIR R4 value set issue-type, http://hl7.org/fhir/R4/valueset-issue-type.html, as the SDK lists it.
    [Fact]
    public void All_IssueTypes_AreOfR4() =>
        All.ShouldAllBe(kind => EnumUtility.ParseLiteral<OperationOutcome.IssueType>(kind.IssueType) != null);

    [Fact]
    public void All_Kinds_AreReached() =>
        All.Except(SeededMistakes.All.Select(mistake => mistake.Kind)).ShouldBe(ReachedElsewhere, ignoreOrder: true);
}
