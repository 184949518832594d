using HandFhirBridge.Assessment.Problems;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>A quantity has a unit the question offers (http://hl7.org/fhir/R4/extension-questionnaire-unitoption.html).</summary>
internal sealed class UnitOptionRule : IQuestionRule
{
    private const string UnitOption = "http://hl7.org/fhir/StructureDefinition/questionnaire-unitOption";

    /// <inheritdoc/>
    public IEnumerable<Problem> Check(AskedQuestion asked, Finding finding)
    {
        var units = asked.Question.GetExtensions(UnitOption).Select(extension => extension.Value).OfType<Coding>().ToList();
        return from placed in asked.Answers
               where units.Count > 0 && placed.Answer.Value is Quantity quantity && !units.Exists(unit => unit.System == quantity.System && unit.Code == quantity.Code)
               select finding.At(
                   ValidationProblems.AnswerNotOffered,
                   placed.Location + ".value",
                   $"'{asked.Question.LinkId}' is answered in '{((Quantity)placed.Answer.Value!).Code}', but asked in {string.Join(" or ", units.Select(unit => unit.Code))}.");
    }
}
