using HandFhirBridge.Assessment.Problems;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>A rule about what a response holds for one question that is to be asked.</summary>
internal interface IQuestionRule
{
    /// <summary>Everything against the rule.</summary>
    IEnumerable<Problem> Check(AskedQuestion asked, Finding finding);
}
