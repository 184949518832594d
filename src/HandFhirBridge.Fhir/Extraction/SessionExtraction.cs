using System.Collections.Immutable;
using HandFhirBridge.Assessment.Intake;
using HandFhirBridge.Assessment.Problems;
using HandFhirBridge.Assessment.Sessions;
using HandFhirBridge.Fhir.Mapping;
using HandFhirBridge.Fhir.Reading;
using HandFhirBridge.Fhir.Validation;
using Hl7.Fhir.Model;
using Status = Hl7.Fhir.Model.QuestionnaireResponse.QuestionnaireResponseStatus;

namespace HandFhirBridge.Fhir.Extraction;

/// <summary>
/// Reads the session out of a completed response to the whole-session Questionnaire, whatever form filler made it. The answers
/// become a session document and are read by the same rules; nothing is added or guessed. Safe for all threads.
/// </summary>
/// <param name="validator">Checks the answers against the Questionnaire.</param>
/// <param name="reader">Reads the document.</param>
public sealed class SessionExtraction(SessionValidator validator, SessionReader reader)
{
    /// <summary>Name of the parameter that holds the response (SDC, OperationDefinition QuestionnaireResponse-extract).</summary>
    private const string Parameter = "questionnaire-response";

    /// <summary>Reads one response.</summary>
    /// <param name="utf8Json">A QuestionnaireResponse, or Parameters that hold one; FHIR JSON in UTF-8.</param>
    /// <returns>The session, or null if any problem is an error; and every problem, located by FHIRPath in the response.</returns>
    public Outcome<Session> Read(ReadOnlyMemory<byte> utf8Json)
    {
        var (resource, faults) = StrictReader.Read(utf8Json.Span);
        if (resource is null || faults.Any(fault => fault.Severity == Severity.Error))
        {
            return new(null, faults);
        }

        var finding = new Finding(resource);
        return ResponseIn(resource) is { } response
            ? Read(response, new Finding(response))
            : new(null, [finding.At(ExtractionProblems.NoResponse, resource.TypeName, "There is no one questionnaire response in it.")]);
    }

    private Outcome<Session> Read(QuestionnaireResponse response, Finding finding)
    {
        var unfit = Unfit(response, finding).ToImmutableArray();
        if (unfit.IsEmpty)
        {
            unfit = [.. validator.CheckAnswers(response)];
        }

        if (unfit.Any(problem => problem.Severity == Severity.Error))
        {
            return new(null, unfit);
        }

        var document = new ResponseDocument(response, finding);
        var read = reader.Read(document.Utf8);
        ImmutableArray<Problem> problems =
        [
            .. unfit, .. document.Problems, .. read.Problems.Select(problem => problem with { Location = document.PlaceOf(problem.Location) }),
            .. read.Value is { } session ? OtherSubject(response, session.Patient.Identifier, finding) : [],
        ];
        return new(problems.Any(problem => problem.Severity == Severity.Error) ? null : read.Value, problems);
    }

    private static QuestionnaireResponse? ResponseIn(Resource resource) => resource switch
    {
        QuestionnaireResponse response => response,
        Parameters parameters when parameters.Parameter.Where(p => p.Name == Parameter).ToList() is [{ Resource: QuestionnaireResponse response }] => response,
        _ => null,
    };

    private static IEnumerable<Problem> Unfit(QuestionnaireResponse response, Finding finding)
    {
        var name = Canonicals.SessionQuestionnaire;
        if (response.Questionnaire != name && response.Questionnaire != name[..name.IndexOf('|', StringComparison.Ordinal)])
        {
            yield return finding.At(
                ExtractionProblems.OtherQuestionnaire, "QuestionnaireResponse.questionnaire", $"It answers '{response.Questionnaire}', not '{name}'.");
        }

        if (response.Status is not (Status.Completed or Status.Amended))
        {
            yield return finding.At(ExtractionProblems.NotCompleted, "QuestionnaireResponse.status", "It is neither completed nor amended.");
        }

        if (response.ImplicitRules is not null || Soundness.HasModifier(response))
        {
            yield return finding.At(
                ExtractionProblems.ModifierNotUnderstood, "QuestionnaireResponse", "It has a modifier extension or implicit rules, which may change what it means.");
        }
    }

    // Who the form filler thought the patient is; the chart itself is found by the answers, and compared, when the session is sent.
    private static IEnumerable<Problem> OtherSubject(QuestionnaireResponse response, BusinessIdentifier patient, Finding finding)
    {
        if (response.Subject?.Identifier is { } subject && subject.System == patient.System && subject.Value != patient.Value)
        {
            yield return finding.At(
                ExtractionProblems.OtherSubject, "QuestionnaireResponse.subject.identifier.value", $"The subject is not the patient '{patient.Value}' of the answers.");
        }
    }
}
