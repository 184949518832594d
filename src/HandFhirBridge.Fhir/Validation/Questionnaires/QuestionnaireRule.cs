using System.Collections.Concurrent;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Fhir.Profiles;
using HandFhirBridge.Fhir.Validation.Rules;
using HandFhirBridge.Fhir.Validation.Terminology;
using Hl7.Fhir.Model;

namespace HandFhirBridge.Fhir.Validation.Questionnaires;

/// <summary>Every questionnaire response fits the questionnaire it names, if that one is in the package.</summary>
internal sealed class QuestionnaireRule(DefinitionSource definitions, ClosedValueSets valueSets) : IResourceRule
{
    private readonly ConcurrentDictionary<string, ResponseChecker?> _checkers = new(StringComparer.Ordinal);

    /// <inheritdoc/>
    public IEnumerable<Problem> Check(Resource root, Finding finding) => root switch
    {
        QuestionnaireResponse response => Check(response, nameof(QuestionnaireResponse), finding),
        Bundle bundle => bundle.Entry.SelectMany((entry, at) =>
            entry.Resource is QuestionnaireResponse response ? Check(response, $"Bundle.entry[{at}].resource", finding) : []),
        _ => [],
    };

    private IEnumerable<Problem> Check(QuestionnaireResponse response, string location, Finding finding)
    {
        var canonical = response.Questionnaire;
        if (canonical is null)
        {
            // The profile asks for it.
            return [];
        }

        return _checkers.GetOrAdd(canonical, Checker) is { } checker
            ? checker.Check(response, location, finding)
            : [finding.At(ValidationProblems.UnknownQuestionnaire, location + ".questionnaire", $"There is no questionnaire '{canonical}' in {ProfilePackage.Identity}.")];
    }

    private ResponseChecker? Checker(string canonical) =>
        definitions.Find(canonical) is Questionnaire questionnaire ? new ResponseChecker(questionnaire, valueSets) : null;
}
